// Words in the margins of the picture, one over the other, each with a line to its place.

const LINE_HIGH = 15;
const LETTERS = 20;
const GAP = 8;

// Break words into lines of about a margin's width.
function broken(text) {
  const lines = [""];
  text.split(" ").forEach((word) => {
    const last = lines[lines.length - 1];
    if (last && (last + " " + word).length > LETTERS) lines.push(word);
    else lines[lines.length - 1] = last ? `${last} ${word}` : word;
  });
  return lines;
}

// Place callouts {text, at: [x, y]} in the margins: to the side they stand on, in their order of
// height, none over another. Narrow pictures take letters, and the words stand under them.
function placed(callouts, view) {
  const narrow = view.margin < 60;
  const all = callouts.map((c, i) => ({ ...c, letter: String.fromCharCode(65 + i) }));
  all.forEach((c) => { c.lines = narrow ? [c.letter] : broken(c.text); });
  const right = all.filter((c) => c.at[0] >= view.width / 2);
  const left = all.filter((c) => c.at[0] < view.width / 2);
  // Four on one side of a low picture would not all find room.
  while (right.length - left.length > 1) left.push(right.sort((a, b) => b.at[0] - a.at[0]).pop());
  while (left.length - right.length > 1) right.push(left.sort((a, b) => a.at[0] - b.at[0]).pop());
  return [...stacked(left, view, false), ...stacked(right, view, true)];
}

function stacked(callouts, view, right) {
  const sorted = callouts.sort((a, b) => a.at[1] - b.at[1]);
  const high = (c) => c.lines.length * LINE_HIGH;
  let floor = 6;
  sorted.forEach((c) => {
    c.top = Math.max(c.at[1] - high(c) / 2, floor);
    floor = c.top + high(c) + GAP;
  });
  let ceiling = view.height - 6;
  [...sorted].reverse().forEach((c) => {
    c.top = Math.min(c.top, ceiling - high(c));
    ceiling = c.top - GAP;
    c.x = right ? view.width - view.margin + 8 : view.margin - 8;
    c.right = right;
  });
  return sorted;
}
