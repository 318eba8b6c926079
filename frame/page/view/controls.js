// What the reader sets, and the words that go with the picture.

const NARROW = 620;
const MARGIN = 165;
const STEP = 5;
const TURNS = { front: [0, 0], side: [90, 0], corner: [-32, 20], above: [0, 90] };

function begin(data, root) {
  const at = (name) => root.querySelector(`[data-set="${name}"]`);
  const state = { data, root, at, svg: root.querySelector("svg"), units: data.units, asked: false };
  data.racks.forEach((rack, i) => at("rack").add(new Option(rack.title, i)));
  data.times.forEach((times) => at("times").add(new Option(times === 1 ? "true size" : `${times} times`, times)));
  at("gust").max = whole(data.units, data.gust.most);
  at("gust").value = whole(data.units, data.gust.start);
  newRack(state, data.tilt);
  listen(state);
  root.hidden = false;
  draw(state);
}

// Fill the lists that hang on the rack: tilts, ends of its guys, winds.
function newRack(state, wanted) {
  const { data, at } = state;
  const rack = data.racks[at("rack").value];
  fill(at("tilt"), rack.tilts.map((tilt, i) => [tilt.words, i]), wanted);
  const { ends } = rack.tilts[at("tilt").value];
  fill(at("end"), ends.map((end, i) => [end.words, i]), at("end").value || 0);
  at("end").closest("label").hidden = ends.length < 2;
  fillWinds(state);
}

function fill(list, options, wanted) {
  list.replaceChildren(...options.map(([words, value]) => new Option(words, value)));
  list.value = options.some(([, value]) => String(value) === String(wanted)) ? wanted : options[0][1];
}

const SIDES = { front: "in the face", back: "from behind", left: "from the left", right: "from the right" };

function fillWinds(state) {
  const { data, at } = state;
  const list = at("wind");
  const was = list.value;
  const { winds } = data.bares[held(state).bare];
  const groups = Object.entries(SIDES).filter(([side]) => winds.some((w) => w.from === side));
  list.replaceChildren(new Option("whichever moves the top most", ""), ...groups.map(([side, words]) => {
    const group = document.createElement("optgroup");
    group.label = `Wind ${words}`;
    group.append(new Option(`${words}: what moves it most`, side));
    winds.forEach((wind, i) => { if (wind.from === side) group.append(new Option(wind.words, i)); });
    return group;
  }));
  list.value = was;
  if (list.selectedIndex < 0) list.value = "";
}

const held = ({ data, at }) => data.racks[at("rack").value].tilts[at("tilt").value];

// The gust the page was made for is no whole number; it stands until the reader sets another.
function gustOf({ data, at, asked }) {
  return asked ? Number(at("gust").value) * data.units.speed.usual[1] : data.gust.start;
}

// The wind asked for: one of the list, or the one among some that moves the top most.
function windOf(state, end, gust) {
  const { winds } = state.data.bares[held(state).bare];
  const asked = state.at("wind").value;
  if (!gust) return null;
  if (/^\d+$/.test(asked)) return winds[asked];
  return worstWind(state.data, held(state), end, winds.filter((w) => !asked || w.from === asked), gust);
}

// Everything that the settings lead to, before it is drawn.
function found(state) {
  const { data, at } = state;
  const rack = data.racks[at("rack").value];
  const one = held(state);
  const end = one.ends[at("end").value];
  const gust = gustOf(state);
  const wind = windOf(state, end, gust);
  const rest = answer(data, one, end, null, 0);
  const blown = wind ? answer(data, one, end, wind, gust) : rest;
  const moved = sway(data, one, blown, rest);
  const topples = blown.topples || moved.most > rack.height;
  const broken = Boolean(wind && rack.breaks && rack.breaks.gust <= gust);
  const gone = topples ? "topples" : broken ? "broken" : "";
  const alone = at("show").value === "wind";
  const drawn = shapes(data, one, gone ? rest : blown, rest, alone);
  return { rack, one, end, gust, wind, blown, moved, gone, drawn, bare: data.bares[one.bare], alone };
}

function timesOf(state, now) {
  const asked = state.at("times").value;
  if (now.gone) return 0;
  return asked ? Number(asked) : fittingTimes(state.data, now.bare, now.drawn);
}

function draw(state) {
  const { data, at, svg } = state;
  if (!state.now) state.now = found(state);
  const now = state.now;
  const width = Math.max(svg.parentElement.clientWidth, 280);
  const height = Math.round(Math.min(Math.max(0.58 * width, 320), 560));
  const margin = width < NARROW ? 26 : MARGIN;
  const space = room(now.bare, now.one);
  const view = camera(space, Number(at("turn").value), Number(at("dip").value), width, height, margin);
  const times = timesOf(state, now);
  const callouts = placed(notes(state, now, view, times), view);
  const arrowTop = now.wind && now.alone && !now.gone ? topSpot(now) : null;
  plate(svg, data, { ...now, view, times, space, callouts, arrowTop, arrow: data.arrow });
  Object.assign(svg.dataset, { times, scale: view.scale, middle: space.middle.join(" "), gone: now.gone });
  words(state, now, times, callouts, margin);
}

const topSpot = (now) => {
  const node = now.bare.tops[now.moved.top];
  const strip = now.drawn.strips.find((s) => s.member.ends.includes(node));
  return strip.stations[strip.member.ends[0] === node ? 0 : strip.stations.length - 1];
};

// Set what follows from a new rack, tilt, guys, wind or gust, and draw.
function change(state, name) {
  if (name === "gust") state.asked = true;
  if (name === "rack") newRack(state, state.at("tilt").value);
  if (name === "tilt") newRack(state, state.at("tilt").value);
  state.now = null;
  draw(state);
}

function turnTo(state, turn, dip) {
  state.at("turn").value = ((turn + 540) % 360) - 180;
  state.at("dip").value = Math.min(Math.max(dip, LOWEST_EYE), HIGHEST_EYE);
  draw(state);
}

function listen(state) {
  const { root, at, svg } = state;
  root.addEventListener("input", ({ target }) => {
    const name = target.dataset.set;
    if (name === "turn" || name === "dip" || name === "times") draw(state);
    else if (name) change(state, name);
  });
  root.addEventListener("click", ({ target }) => {
    if (target.dataset.from) turnTo(state, ...TURNS[target.dataset.from]);
  });
  new ResizeObserver(() => draw(state)).observe(svg.parentElement);
  const now = () => [Number(at("turn").value), Number(at("dip").value)];
  svg.parentElement.addEventListener("keydown", (event) => {
    const [turn, dip] = now();
    const to = {
      ArrowLeft: [turn - STEP, dip], ArrowRight: [turn + STEP, dip],
      ArrowUp: [turn, dip + STEP], ArrowDown: [turn, dip - STEP], Home: TURNS.corner,
    }[event.key];
    if (!to) return;
    event.preventDefault();
    turnTo(state, ...to);
  });
  dragging(state, svg.parentElement, now);
}

// A drag across the picture's width turns the rack half round; up and down lift the eye, but for a
// finger, which scrolls the page by that.
function dragging(state, stage, now) {
  let from = null;
  stage.addEventListener("pointerdown", (event) => {
    from = { x: event.clientX, y: event.clientY, set: now() };
    stage.setPointerCapture(event.pointerId);
  });
  stage.addEventListener("pointermove", (event) => {
    if (!from) return;
    const across = ((event.clientX - from.x) / stage.clientWidth) * 180;
    const up = event.pointerType === "touch" ? 0 : (event.clientY - from.y) / 3;
    turnTo(state, from.set[0] - across, from.set[1] + up);
  });
  ["pointerup", "pointercancel"].forEach((name) => stage.addEventListener(name, () => { from = null; }));
}
