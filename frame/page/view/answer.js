// One rack in one wind: the pulls of its guys, what it grows by at second order, what is told.

const MOST_EXCHANGES = 5000;

// Pulls t >= 0 of lines that cannot push, with slack s = A t - r >= 0 and t' s = 0, exactly.
//
// A is symmetric positive definite, so there is one answer. Exchanging the first line that is
// wrong, again and again, finds it in finitely many steps (Murty's rule: Cottle, Pang and Stone,
// The Linear Complementarity Problem, 1992). Cutting negative pulls off would not be the same.
function pulls(A, r) {
  const taut = r.map((short) => short > 0);
  for (let round = 0; round < MOST_EXCHANGES; round++) {
    const t = pullsOf(A, r, taut);
    const wrong = taut.findIndex((is, i) => (is ? t[i] < 0 : dot(A[i], t) - r[i] < -1e-11 * Math.abs(r[i])));
    if (wrong < 0) return t;
    taut[wrong] = !taut[wrong];
  }
  throw new Error("the guys have no answer");
}

// Pulls of either sign with the taut lines given.
function pullsOf(A, r, taut) {
  const on = taut.flatMap((is, i) => (is ? [i] : []));
  const t = new Float64Array(r.length);
  const found = solved(cholesky(on.map((i) => on.map((j) => A[i][j]))), on.map((i) => r[i]));
  on.forEach((i, n) => { t[i] = found[n]; });
  return t;
}

// Amounts of the columns that a rack takes: dead load, wind loads, pulls of its guys.
function amountsIn(data, held, end, wind, gust) {
  const bare = data.bares[held.bare];
  const pressure = bare.pressure * gust ** 2;
  const blown = (wind ? wind.factors : bare.winds[0].factors).map((factor) => (wind ? factor * pressure : 0));
  const count = held.guys.length;
  const r = Array.from({ length: count }, (_, i) => {
    const set = dot(end.give[i], end.pull);
    return blown.reduce((sum, amount, w) => sum + amount * held.stretch[w][i], set);
  });
  return { blown, first: count ? pulls(end.give, r) : [] };
}

// Amplitudes of the shapes at second order: (K - alpha A) a = alpha pushes, with A what all
// forces take off the stiffness and K that of the frame and its taut guys; null where it topples.
function growth(data, held, end, amounts, taut) {
  const shapes = held.lines.length;
  const matrix = symmetric(combined(rows(held.geometric), amounts, (shapes * (shapes + 1)) / 2), shapes);
  const stiff = held.lines.map((row, i) =>
    held.lines.map((other, j) =>
      row.reduce((sum, work, g) => sum + (taut[g] ? (work * other[g]) / end.slackness[g] : 0), i === j ? 1 : 0),
    ),
  );
  const less = (alpha) => stiff.map((row, i) => Float64Array.from(row, (k, j) => k / alpha - matrix[i][j]));
  if (!cholesky(less(held.toppling))) return null;
  return solved(cholesky(less(data.alpha)), pushes(held, amounts, shapes));
}

function pushes(held, amounts, shapes) {
  const pairs = [];
  for (let i = 0; i < amounts.length; i++) {
    for (let j = i; j < amounts.length; j++) pairs.push((i === j ? 1 : 2) * amounts[i] * amounts[j]);
  }
  return combined(rows(held.pushes), pairs, shapes);
}

// Solve a rack in a wind (none: still air). `told`: level movements of the post tops, in turn, and
// the torque on the sleeve of a single post; `pulls` of its guys at second order.
function answer(data, held, end, wind, gust) {
  const bare = data.bares[held.bare];
  const { blown, first } = amountsIn(data, held, end, wind, gust);
  const amounts = [1, ...blown, ...first];
  const taut = Array.from(first, (pull) => pull > 0);
  const grown = growth(data, held, end, amounts, taut);
  const all = [1, ...blown, ...new Array(bare.guys.length).fill(0)];
  held.guys.forEach((guy, i) => { all[1 + blown.length + guy] = first[i]; });
  const told = combined(bare.told, all, bare.told[0].length);
  if (!grown) return { topples: true, all, grown, told, pulls: Array.from(first) };
  held.told.forEach((row, shape) => row.forEach((value, i) => { told[i] += grown[shape] * value; }));
  const back = Array.from(first, (pull, g) => {
    const more = taut[g] ? held.lines.reduce((sum, row, s) => sum + grown[s] * row[g], 0) : 0;
    return Math.max(pull - more / end.slackness[g], 0);
  });
  return { topples: false, all, grown, told, pulls: back };
}

// How far the post top that moves most goes level from still air, and which it is.
function sway(data, held, found, rest) {
  const tops = data.bares[held.bare].tops.length;
  let most = 0;
  let top = 0;
  for (let i = 0; i < tops; i++) {
    const level = Math.hypot(found.told[2 * i] - rest.told[2 * i], found.told[2 * i + 1] - rest.told[2 * i + 1]);
    if (level > most) [most, top] = [level, i];
  }
  return { most, top };
}

// The wind, among some, that moves a post top most; one that topples the rack comes before all.
function worstWind(data, held, end, winds, gust) {
  const rest = answer(data, held, end, null, 0);
  let best = null;
  winds.forEach((wind) => {
    const found = answer(data, held, end, wind, gust);
    const moved = found.topples ? Infinity : sway(data, held, found, rest).most;
    if (!best || moved > best.moved * (1 + 1e-9)) best = { wind, moved };
  });
  return best.wind;
}
