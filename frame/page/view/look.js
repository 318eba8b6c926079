// How a rack in space comes onto the paper: parallel, upright, turned about the post.

const ROOM_ROUND = 1.12;
const LOWEST_EYE = -10;
const HIGHEST_EYE = 90;

// `turn` about the upright and `dip` of the eye above level, both in degrees. The eye stands in
// front of the rack; a negative turn takes it to the left. `u` and `v` lie on the paper, to the
// right and up, `w` away from the eye.
function axes(turn, dip) {
  const [t, d] = [(turn * Math.PI) / 180, (dip * Math.PI) / 180];
  const ahead = [-Math.sin(t), Math.cos(t), 0];
  return {
    u: [Math.cos(t), Math.sin(t), 0],
    v: plus(scaled(ahead, Math.sin(d)), [0, 0, Math.cos(d)]),
    w: plus(scaled(ahead, Math.cos(d)), [0, 0, -Math.sin(d)]),
  };
}

// The room that a rack takes however it is turned: middle, farthest reach level, half its height.
function room(bare, held) {
  const points = [...bare.nodes, ...bare.panels.corners, ...held.guys.map((g) => bare.guys[g].anchor)];
  const span = (axis) => [Math.min(...points.map((p) => p[axis])), Math.max(...points.map((p) => p[axis]))];
  const middle = [0, 1, 2].map((axis) => (span(axis)[0] + span(axis)[1]) / 2);
  const reach = Math.max(...points.map((p) => Math.hypot(p[0] - middle[0], p[1] - middle[1])));
  const [low, high] = span(2);
  return { middle, reach, half: (high - low) / 2 };
}

// From space to picture points: `scale` [px/m] so that all of it stays on the plate.
function camera(space, turn, dip, width, height, margin) {
  const { u, v, w } = axes(turn, dip);
  const d = (Math.abs(dip) * Math.PI) / 180;
  const tall = space.half * Math.cos(d) + space.reach * Math.sin(d);
  const scale = Math.min((width / 2 - margin) / space.reach, height / 2 / tall) / ROOM_ROUND;
  const put = (point) => {
    const from = minus(point, space.middle);
    return [width / 2 + scale * dot(from, u), height / 2 - scale * dot(from, v)];
  };
  return { scale, put, far: (point) => dot(point, w), u, v, w, width, height, margin };
}

// By how much movements are drawn larger: the most that keeps the largest to a share of the rack.
function fittingTimes(data, bare, drawn) {
  const span = (axis) => Math.max(...bare.nodes.map((n) => n[axis])) - Math.min(...bare.nodes.map((n) => n[axis]));
  const most = largest(drawn);
  const space = data.share * Math.min(span(0), span(2));
  return data.times.find((times) => times * most <= space) || 1;
}

// Longest movement of any place on the steel.
function largest(drawn) {
  return Math.max(...drawn.strips.flatMap((s) => s.stations.map((p) => Math.hypot(...p.moved))));
}
