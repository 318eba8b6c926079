// Numbers as the program writes them: about three figures, no more decimals than mean anything.

const FIGURES = 3;

// Round to some places, negative ones for tens and hundreds, and write with thousands apart.
function figures(value, decimals) {
  if (Number(value.toFixed(decimals)) === 0) return "0";
  const places = Math.min(decimals, FIGURES - 1 - Math.floor(Math.log10(Math.abs(value))));
  const tens = 10 ** Math.max(-places, 0);
  const text = (Math.round(value / tens) * tens).toLocaleString("en-US", { maximumFractionDigits: 0 });
  if (places <= 0) return text;
  return Number(value.toFixed(places)).toLocaleString("en-US", { maximumFractionDigits: places });
}

// Write a value in SI with the unit of its kind, the small unit where it is small.
function show(units, kind, value) {
  const found = units[kind];
  const small = found.small && Math.abs(value) < found.below;
  const [label, factor, decimals] = small ? found.small : found.usual;
  return `${figures(value / factor, decimals)} ${label}`;
}

// A gust in whole numbers, never more than it is: panels are taken off before it.
const NEARLY = 1e-6;

const whole = (units, gust) => Math.floor(gust / units.speed.usual[1] + NEARLY);

const showGust = (units, gust) => `${whole(units, gust)} ${units.speed.usual[0]}`;
