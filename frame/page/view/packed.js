// Rows of whole numbers of two bytes, each row with its own step, read once and kept.

const read = new WeakMap();

function rows(packed) {
  if (!read.has(packed)) read.set(packed, unpacked(packed));
  return read.get(packed);
}

function unpacked({ step, bits }) {
  const bytes = Uint8Array.from(atob(bits), (letter) => letter.charCodeAt(0));
  const view = new DataView(bytes.buffer);
  const length = step.length ? bytes.length / 2 / step.length : 0;
  return step.map((size, row) =>
    Float64Array.from({ length }, (_, i) => size * view.getInt16(2 * (row * length + i), true)),
  );
}

// Full rows of a symmetric matrix from its upper triangle, row by row.
function symmetric(upper, size) {
  const full = Array.from({ length: size }, () => new Float64Array(size));
  let at = 0;
  for (let i = 0; i < size; i++) {
    for (let j = i; j < size; j++) full[i][j] = full[j][i] = upper[at++];
  }
  return full;
}
