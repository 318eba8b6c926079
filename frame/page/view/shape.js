// The moved shape of a rack, and how hard its steel works, from the amounts of its columns.

// Movements (x, y, z) and turns of all nodes, and forces at both ends of all members.
function fields(data, held, found) {
  const { columns } = data.bares[held.bare];
  const mixed = found.grown ? held.mixed.map((row) => dot(row, found.grown)) : [];
  const total = (name) => {
    const length = rows(columns[name])[0].length;
    const sum = combined(rows(columns[name]), found.all, length);
    const more = combined(mixed.length ? rows(held.drawn[name]) : [], mixed, length);
    return sum.map((value, i) => value + more[i]);
  };
  return { moves: total("moves"), turns: total("turns"), axial: total("axial"), bending: total("bending") };
}

const at3 = (list, i) => [list[3 * i], list[3 * i + 1], list[3 * i + 2]];
const plus = (a, b, times = 1) => a.map((v, i) => v + times * b[i]);
const minus = (a, b) => plus(a, b, -1);
const scaled = (a, times) => a.map((v) => v * times);
const cross = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];

// Movement of a point on a rigid arm from a node.
function carried(field, node, arm) {
  return plus(at3(field.moves, node), cross(at3(field.turns, node), arm));
}

// Places and movements along a member at rest and moved: linear along it, and across it the cubic
// that a beam without load between its ends takes (any textbook on beams). Where bending is let
// go at an end, the slope there follows the member and not the node.
function bent(member, nodes, field, stations) {
  const ends = member.ends.map((node, e) => plus(nodes[node], member.arms[e]));
  const moved = member.ends.map((node, e) => carried(field, node, member.arms[e]));
  const way = minus(ends[1], ends[0]);
  const length = Math.hypot(...way);
  const along = scaled(way, 1 / length);
  const stretch = moved.map((m) => dot(m, along));
  const across = moved.map((m, e) => minus(m, scaled(along, stretch[e])));
  const slopes = slopesOf(member, field, along, scaled(minus(across[1], across[0]), 1 / length));
  return Array.from({ length: stations }, (_, i) => {
    const s = i / (stations - 1);
    const terms = [
      [along, stretch[0] * (1 - s) + stretch[1] * s],
      [across[0], 1 - 3 * s ** 2 + 2 * s ** 3],
      [across[1], 3 * s ** 2 - 2 * s ** 3],
      [slopes[0], length * (s - 2 * s ** 2 + s ** 3)],
      [slopes[1], length * (s ** 3 - s ** 2)],
    ];
    return {
      at: plus(ends[0], way, s),
      moved: terms.reduce((sum, [vector, times]) => plus(sum, vector, times), [0, 0, 0]),
    };
  });
}

function slopesOf(member, field, along, chord) {
  const slopes = member.ends.map((node) => cross(at3(field.turns, node), along));
  const [first, second] = member.free;
  if (first && second) return [chord, chord];
  if (first) slopes[0] = minus(scaled(chord, 1.5), scaled(slopes[1], 0.5));
  if (second) slopes[1] = minus(scaled(chord, 1.5), scaled(slopes[0], 0.5));
  return slopes;
}

// Stress of the extreme fibre over the steel's listed yield at the stations of member `i`.
function used(member, i, field, stations) {
  const [perAxial, perY, perZ] = member.works;
  return Array.from({ length: stations }, (_, n) => {
    const s = n / (stations - 1);
    const axial = between(field.axial[2 * i], field.axial[2 * i + 1], s) * perAxial;
    const y = Math.abs(between(field.bending[4 * i], field.bending[4 * i + 2], s) * perY);
    const z = Math.abs(between(field.bending[4 * i + 1], field.bending[4 * i + 3], s) * perZ);
    return Math.abs(axial) + (member.round ? Math.hypot(y, z) : y + z);
  });
}

const between = (a, b, s) => a + (b - a) * s;

// Everything that is drawn: strips of steel, stubs of connections, guys and panels, each with its
// place at rest and its movement: from still air, `rest`, if by the wind `alone`, else from the
// rack unloaded, without what its posts sink by the weight, which would hide how it droops.
function shapes(data, held, found, rest, alone) {
  const bare = data.bares[held.bare];
  const whole = fields(data, held, found);
  const still = fields(data, held, rest);
  const field = alone ? less(whole, still) : raised(whole, sunk(bare, still));
  const strips = bare.members.map((member, i) => ({
    member,
    stations: bent(member, bare.nodes, field, data.stations),
    used: used(member, i, whole, data.stations),
  }));
  return { strips, connections: connections(bare, field), guys: guys(bare, held, field, found), panels: panels(bare, field) };
}

// How far the beam comes down at its posts, on average [m].
function sunk(bare, still) {
  return -bare.beams.reduce((sum, node) => sum + still.moves[3 * node + 2], 0) / bare.beams.length;
}

function raised(field, up) {
  return { ...field, moves: field.moves.map((v, i) => (i % 3 === 2 ? v + up : v)) };
}

function less(one, other) {
  return Object.fromEntries(Object.keys(one).map((key) => [key, one[key].map((v, i) => v - other[key][i])]));
}

// Short rigid pieces: from node to node at connections, and from nodes to members that are set back.
function connections(bare, field) {
  const spots = bare.connections.map(([first, second]) => [first, minus(bare.nodes[second], bare.nodes[first])]);
  bare.members.forEach((m) => m.ends.forEach((node, e) => {
    if (m.arms[e].some((v) => v !== 0)) spots.push([node, m.arms[e]]);
  }));
  return spots.map(([node, arm]) => [
    { at: bare.nodes[node], moved: at3(field.moves, node) },
    { at: plus(bare.nodes[node], arm), moved: carried(field, node, arm) },
  ]);
}

function guys(bare, held, field, found) {
  return held.guys.map((place, i) => {
    const guy = bare.guys[place];
    return {
      name: guy.name,
      pull: found.pulls[i],
      ends: [
        { at: plus(bare.nodes[guy.node], guy.arm), moved: carried(field, guy.node, guy.arm) },
        { at: guy.anchor, moved: [0, 0, 0] },
      ],
    };
  });
}

function panels(bare, field) {
  return bare.panels.corners.map((at, i) => ({ at, moved: at3(field.moves, bare.panels.nodes[i]) }));
}
