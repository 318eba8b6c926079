// Small symmetric systems: a rack has a dozen guys at most and some thirty shapes.

// Lower factor L of A = L L', or null where A is not positive definite.
function cholesky(A) {
  const n = A.length;
  const L = A.map((row) => new Float64Array(row.length));
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = A[i][j];
      for (let k = 0; k < j; k++) sum -= L[i][k] * L[j][k];
      if (i === j && !(sum > 0)) return null;
      L[i][j] = i === j ? Math.sqrt(sum) : sum / L[j][j];
    }
  }
  return L;
}

// Answer x of L L' x = b.
function solved(L, b) {
  const n = b.length;
  const x = Float64Array.from(b);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i] -= L[i][k] * x[k];
    x[i] /= L[i][i];
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i] -= L[k][i] * x[k];
    x[i] /= L[i][i];
  }
  return x;
}

function dot(a, b) {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}

// Sum of rows of equal length, each so many times.
function combined(rows, amounts, length) {
  const total = new Float64Array(length);
  rows.forEach((row, i) => {
    const times = amounts[i];
    if (times !== 0) for (let j = 0; j < length; j++) total[j] += times * row[j];
  });
  return total;
}
