// The picture: steel in its true width on a plate, marks on it as if drawn with soapstone.

const SVG = "http://www.w3.org/2000/svg";
const SHORTEST = 3;

function element(name, given = {}, ...inside) {
  const made = document.createElementNS(SVG, name);
  Object.entries(given).forEach(([key, value]) => made.setAttribute(key, value));
  made.append(...inside);
  return made;
}

const number = (value) => value.toFixed(2);
const path = (points, closed = false) =>
  `M${points.map((p) => p.map(number).join(" ")).join("L")}${closed ? "Z" : ""}`;

// Draw a scene: `drawn` shapes, movements `times` larger, seen by `view`.
function plate(svg, data, scene) {
  const { view } = scene;
  svg.setAttribute("viewBox", `0 0 ${view.width} ${view.height}`);
  const moved = (spot) => view.put(plus(spot.at, spot.moved, scene.times));
  const parts = [
    ...scene.drawn.connections.map((one) => stub(one, view, moved)),
    ...pipes(scene.drawn.strips).map((pipe) => steel(pipe, data, view, moved)),
    ...scene.drawn.guys.map((guy) => wire(guy, view, moved)),
    sheet(scene.drawn.panels, view, moved),
  ];
  parts.sort((a, b) => b.far - a.far);
  svg.replaceChildren(
    hatching(),
    ground(scene, view),
    ...footings(scene, view),
    element("g", { class: "rest" }, ...scene.drawn.strips.map((strip) => atRest(strip, view))),
    ...parts.flatMap((part) => part.made),
    ...blowing(scene, view),
    ...swept(scene, view, moved),
    ...scene.callouts.flatMap((callout) => said(callout)),
  );
}

// Strokes of the bands where steel flexes, as with a flat stick.
function hatching() {
  const lines = element("pattern", {
    id: "view-hatch", width: 5, height: 5, patternUnits: "userSpaceOnUse", patternTransform: "rotate(50)",
  }, element("line", { class: "stroke", x1: 0, y1: 0, x2: 0, y2: 5 }));
  return element("defs", {}, lines);
}

const farOf = (spots, view) => spots.reduce((sum, s) => sum + view.far(s.at), 0) / spots.length;

function stub(spots, view, moved) {
  return { far: farOf(spots, view), made: [element("path", { class: "stub", d: path(spots.map(moved)) })] };
}

// Strips of one part together, with their places, so that no edge is drawn over their joints.
function pipes(strips) {
  const parts = new Map();
  strips.forEach((strip, i) => {
    const { part } = strip.member;
    if (!parts.has(part)) parts.set(part, []);
    parts.get(part).push({ strip, i });
  });
  return [...parts.values()];
}

function steel(pipe, data, view, moved) {
  const made = { flex: [], edge: [], steel: [] };
  pipe.forEach(({ strip, i }) => {
    const line = strip.stations.map(moved);
    const width = Math.max(strip.member.width * view.scale, 1.5);
    made.flex.push(...bands(strip, data, view, line));
    made.edge.push(element("path", { class: "edge", d: path(line), "stroke-width": number(width) }));
    made.steel.push(element("path", {
      class: "steel", d: path(line), "stroke-width": number(Math.max(width - 2, 0.8)), "data-member": i,
    }));
  });
  const spots = pipe.flatMap(({ strip }) => strip.stations);
  return { far: farOf(spots, view), made: [...made.flex, ...made.edge, ...made.steel] };
}

// Hatched bands beside the steel: the wider, the harder it works.
function bands(strip, data, view, line) {
  const works = strip.used.map((use) => use > data.least_used);
  if (!works.some(Boolean)) return [];
  const half = strip.used.map((use) =>
    (strip.member.width / 2 + (use > data.least_used ? data.swell * Math.min(use, 1) : 0)) * view.scale);
  const first = works.indexOf(true);
  const last = works.lastIndexOf(true);
  const across = normals(line);
  if (!across || first === last) return [];
  const run = Array.from({ length: last - first + 1 }, (_, i) => first + i);
  const side = (way) => run.map((i) => plus(line[i], across[i], way * half[i]));
  return [element("path", { class: "flex", d: path([...side(1), ...side(-1).reverse()], true) })];
}

// Unit vectors across a line on the paper, or null where it is looked along.
function normals(line) {
  if (Math.hypot(...minus(line[line.length - 1], line[0])) < SHORTEST) return null;
  return line.map((_, i) => {
    const way = minus(line[Math.min(i + 1, line.length - 1)], line[Math.max(i - 1, 0)]);
    const length = Math.hypot(...way) || 1;
    return [-way[1] / length, way[0] / length];
  });
}

function atRest(strip, view) {
  const ends = [strip.stations[0], strip.stations[strip.stations.length - 1]].map((s) => view.put(s.at));
  return element("path", { d: path(ends), "stroke-width": number(Math.max(strip.member.width * view.scale, 1)) });
}

function wire(guy, view, moved) {
  const ends = guy.ends.map(moved);
  const [x, y] = ends[1];
  return {
    far: farOf(guy.ends, view),
    made: [
      element("path", {
        class: guy.pull > 0 ? "guy" : "guy slack", d: path(ends), "data-guy": guy.name, "data-pull": guy.pull,
      }),
      element("path", { class: "anchor", d: path([[x, y], [x - 4, y + 8], [x + 4, y + 8]], true) }),
    ],
  };
}

function sheet(spots, view, moved) {
  return { far: farOf(spots, view), made: [element("path", { class: "panels", d: path(spots.map(moved), true) })] };
}

// A square of ground, and below its near edge the strokes by which statics books draw it.
function ground(scene, view) {
  const [x, y] = scene.space.middle;
  const r = scene.space.reach;
  const corners = [[-r, -r], [r, -r], [r, r], [-r, r]].map(([a, b]) => view.put([x + a, y + b, 0]));
  const made = [element("path", { class: "grade", d: path(corners, true) })];
  const nearest = [0, 1, 2, 3].map((i) => [corners[i], corners[(i + 1) % 4]])
    .sort((a, b) => b[0][1] + b[1][1] - a[0][1] - a[1][1])[0];
  const [from, to] = nearest;
  const count = Math.max(Math.floor(Math.hypot(...minus(to, from)) / 14), 1);
  const strokes = Array.from({ length: count }, (_, i) => plus(from, minus(to, from), (i + 0.5) / count));
  made.push(element("path", { class: "strokes", d: strokes.map((p) => path([p, plus(p, [-6, 7])])).join("") }));
  return element("g", {}, ...made);
}

// Concrete round the posts: two rounds and the lines between them.
function footings(scene, view) {
  if (!scene.rack.concrete) return [];
  const [wide, deep] = scene.rack.concrete;
  return scene.bare.tops.map((top) => {
    const [x, y] = scene.bare.nodes[top];
    const round = (z) => Array.from({ length: 25 }, (_, i) => {
      const turn = (i * Math.PI) / 12;
      return view.put([x + (wide / 2) * Math.cos(turn), y + (wide / 2) * Math.sin(turn), z]);
    });
    const sides = [-1, 1].map((way) => [0, -deep].map((z) =>
      view.put([x + (way * wide * view.u[0]) / 2, y + (way * wide * view.u[1]) / 2, z])));
    return element("path", { class: "concrete", d: [round(0), round(-deep), ...sides].map((p) => path(p)).join("") });
  });
}

const WAYS = { front: [0, 1, 0], back: [0, -1, 0], left: [1, 0, 0], right: [-1, 0, 0] };

// Arrows before the edge of the panels that the wind strikes; looked along, as statics books draw
// them: a dot where the point comes, a cross where the feathers go.
function blowing(scene, view) {
  if (!scene.wind) return [];
  const way = WAYS[scene.wind.from];
  const [off, long] = scene.arrow;
  const corners = scene.bare.panels.corners;
  const edge = Math.min(...corners.map((c) => dot(c, way)));
  const ends = corners.filter((c) => dot(c, way) < edge + 1e-3);
  const others = ends.length > 1 ? [ends[0], ends[1]] : [ends[0], ends[0]];
  return [0.15, 0.5, 0.85].flatMap((share) => {
    const tip = plus(plus(others[0], minus(others[1], others[0]), share), way, -off);
    return arrow(view.put(plus(tip, way, -long)), view.put(tip), "wind", dot(way, view.w));
  });
}

function swept(scene, view, moved) {
  if (!scene.arrowTop) return [];
  return arrow(view.put(scene.arrowTop.at), moved(scene.arrowTop), "move", null);
}

function arrow(from, to, kind, away) {
  const way = minus(to, from);
  const length = Math.hypot(...way);
  if (length < SHORTEST) return away === null ? [] : endOn(to, kind, away);
  const [a, b] = scaled(way, Math.min(9, length) / length);
  const head = [plus(to, [-a - b * 0.45, -b + a * 0.45]), to, plus(to, [-a + b * 0.45, -b - a * 0.45])];
  return [element("path", { class: kind, d: path([from, to]) + path(head) })];
}

function endOn([x, y], kind, away) {
  const inside = away > 0
    ? element("path", { class: kind, d: path([[x - 4, y - 4], [x + 4, y + 4]]) + path([[x - 4, y + 4], [x + 4, y - 4]]) })
    : element("circle", { class: `${kind} full`, cx: number(x), cy: number(y), r: 2 });
  return [element("circle", { class: kind, cx: number(x), cy: number(y), r: 6 }), inside];
}

function said(callout) {
  const { x, top, right, lines, at } = callout;
  const middle = top + (lines.length * LINE_HIGH) / 2;
  const text = element("text", { class: "said", "text-anchor": right ? "start" : "end", "data-name": callout.name });
  lines.forEach((line, i) => {
    text.append(element("tspan", { x: number(x), y: number(top + (i + 0.8) * LINE_HIGH) }, line));
  });
  const from = [right ? x - 4 : x + 4, middle];
  return [
    element("path", { class: "leader", d: path([from, at]) }),
    element("circle", { class: "dot", cx: number(at[0]), cy: number(at[1]), r: 2.5 }),
    text,
  ];
}
