// The words of the view: in the picture's margins, in the table under it, and in one sentence.

const MOSTLY = 0.6;
const AT_ONCE = 250;

const plain = (kind) => (kind === "rail" ? "rails" : kind);

// Where each kind of part works hardest, the hardest first.
function hardest(data, now) {
  const best = new Map();
  now.drawn.strips.forEach((strip) => strip.used.forEach((use, i) => {
    const { kind } = strip.member;
    if (!best.has(kind) || use > best.get(kind).use) {
      best.set(kind, { kind, use, spot: strip.stations[i], where: now.bare.places[strip.member.where[i]] });
    }
  }));
  return [...best.values()].sort((a, b) => b.use - a.use);
}

// What stands in the margins of the picture.
function notes(state, now, view, times) {
  const { data, units } = state;
  const put = (spot) => view.put(plus(spot.at, spot.moved, times));
  if (now.gone) {
    const text = now.gone === "topples" ? "topples in this gust" : "something has broken already";
    return [{ name: "gone", text, at: put(topSpot(now)) }];
  }
  const made = [];
  if (now.wind) {
    const how = now.moved.most < data.hardly ? "top hardly moves" : "top moves";
    made.push({ name: "sway", text: `${how} ${show(units, "movement", now.moved.most)}`, at: put(topSpot(now)) });
  } else {
    const how = now.end.droop < data.hardly ? "hardly droops" : "droops";
    made.push({ name: "sag", text: `${how} ${show(units, "movement", now.end.droop)}`, at: put(nodeSpot(now, now.end.droop_node)) });
  }
  const found = hardest(data, now);
  found.slice(0, 2).forEach(({ kind, use, spot, where }) => {
    if (use < data.worth || use < MOSTLY * found[0].use) return;
    made.push({ name: "flex", text: `flexes here: the ${plain(kind)}${where ? `, ${where}` : ""}`, at: put(spot) });
  });
  const pulling = [...now.drawn.guys].sort((a, b) => b.pull - a.pull)[0];
  if (pulling && pulling.pull > 0) {
    const [top, anchor] = pulling.ends.map(put);
    const at = plus(scaled(top, 0.4), anchor, 0.6);
    made.push({ name: "pull", text: `pulls ${show(units, "force", pulling.pull)}`, at });
  }
  return made;
}

function nodeSpot(now, node) {
  const strip = now.drawn.strips.find((s) => s.member.ends.includes(node));
  return strip.stations[strip.member.ends[0] === node ? 0 : strip.stations.length - 1];
}

// Lines of the table: what it is, its value, what it is held to.
function lines(state, now) {
  const { data, units } = state;
  const limit = (value) => `limit ${show(units, "movement", value)}`;
  const made = [["Droops by its own weight", show(units, "movement", now.end.droop), limit(now.rack.droop_limit), "sag"]];
  if (now.wind && !now.gone) {
    made.unshift(["Post top moves, from still air", show(units, "movement", now.moved.most), limit(now.rack.limit), "sway"]);
    const torque = now.blown.told[2 * now.bare.tops.length];
    if (torque !== undefined) made.push(["Swings about the post with", show(units, "torque", Math.abs(torque)), "", "swing"]);
  }
  if (!now.gone) {
    hardest(data, now).slice(0, 3).forEach(({ kind, use, where }) => {
      const place = where ? `, ${where}` : "";
      made.push([`Steel works hardest: ${plain(kind)}${place}`, `${Math.round(100 * use)} %`, "of its listed yield", `use ${kind}`]);
    });
    now.drawn.guys.forEach((guy) => {
      made.push([`Guy ${guy.name}`, guy.pull > 0 ? show(units, "force", guy.pull) : "slack", "pull", `guy ${guy.name}`]);
    });
  }
  return made;
}

// Which rack in which wind, and what the drawing leaves out.
function sentence(state, now, times) {
  const { data, units, at } = state;
  const where = now.wind ? `in a gust of ${showGust(units, now.gust)}, ${now.wind.words}` : "in still air";
  const said = [`${now.rack.title}, tilt ${now.one.words}, ${where}.`.replace(/^./, (letter) => letter.toUpperCase())];
  if (now.gone) said.push(now.gone === "topples" ? "It topples: drawn at rest." : "Something has broken already: drawn at rest.");
  else said.push(`Movement ${times === 1 ? "at its true size" : `drawn ${times} times larger`}, ${now.alone ? "from still air" : "from the rack unloaded, without what its posts sink"}.`);
  if (!now.gone && largest(now.drawn) < data.hardly) said.push("It hardly moves.");
  const { slip, breaks } = now.rack;
  if (now.wind && slip && slip.gust <= now.gust) said.push(`From ${slip.about} ${slip.what}: how far it then moves on is not drawn.`);
  if (breaks && !now.gone) said.push(`Expected to break first, at ${breaks.about}: ${breaks.what}.`);
  if (!at("end").closest("label").hidden) said.push(`Guys ${now.end.words}.`);
  return said.join(" ");
}

function words(state, now, times, callouts, margin) {
  const { root } = state;
  root.querySelector("[data-out='gust']").textContent = showGust(state.units, now.gust);
  root.querySelector("[data-out='key']").replaceChildren(...(margin < 60 ? callouts : []).map((c) => item(c)));
  root.querySelector("tbody").replaceChildren(...lines(state, now).map((line) => row(line)));
  root.querySelector("[data-out='caption']").textContent = sentence(state, now, times);
  // Told aloud only once the reader's hand rests.
  clearTimeout(state.later);
  state.later = setTimeout(() => {
    const aloud = root.querySelector("[data-out='aloud']");
    const told = `${sentence(state, now, times)} ${callouts.map((c) => c.text).join("; ")}.`;
    if (aloud.textContent !== told) aloud.textContent = told;
  }, AT_ONCE);
}

function item(callout) {
  const made = document.createElement("li");
  made.textContent = `${callout.letter}: ${callout.text}`;
  return made;
}

function row([what, value, held, name]) {
  const made = document.createElement("tr");
  made.dataset.name = name;
  [what, value, held].forEach((text, i) => {
    const cell = document.createElement(i ? "td" : "th");
    if (!i) cell.scope = "row";
    if (i === 1) cell.className = "n";
    cell.textContent = text;
    made.append(cell);
  });
  return made;
}
