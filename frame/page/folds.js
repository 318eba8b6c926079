// One button opens every check, and closes them again: what is open is printed.

const folds = document.getElementById("folds");

folds.addEventListener("click", () => {
  const open = folds.textContent === "Open all";
  document.querySelectorAll("details").forEach((fold) => { fold.open = open; });
  folds.textContent = open ? "Close all" : "Open all";
});
