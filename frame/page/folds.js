// On paper every fold is open; afterwards each is as it was.

const folds = () => document.querySelectorAll("details");

addEventListener("beforeprint", () => folds().forEach((fold) => {
  fold.dataset.was = fold.open;
  fold.open = true;
}));

addEventListener("afterprint", () => folds().forEach((fold) => {
  fold.open = fold.dataset.was === "true";
}));
