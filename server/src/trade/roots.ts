/**
 * Root finding for the few equations of the trade that have no closed form.
 * It knows no gear: the caller brings a function and a bracket.
 */

/**
 * The place between `low` and `high` where `f` changes sign, to the last few
 * bits. Chandrupatla's method: inverse quadratic interpolation where the three
 * latest points allow it, bisection where they do not, so it never leaves the
 * bracket and needs some ten evaluations for a smooth function.
 *
 * `f(low)` and `f(high)` must differ in sign; the end with the smaller residual
 * is returned if they do not, because at the edge of a range rounding alone can
 * take the sign away.
 */
export function rootBetween(f: (x: number) => number, low: number, high: number, tolerance = 1e-13): number {
  let [a, b] = [high, low];
  let [fa, fb] = [f(a), f(b)];
  if (fa * fb > 0) return Math.abs(fa) < Math.abs(fb) ? a : b;
  let step = 0.5;
  for (let count = 0; count < 200; count += 1) {
    const x = a + step * (b - a);
    const fx = f(x);
    const [c, fc] = Math.sign(fx) === Math.sign(fa) ? [a, fa] : [b, fb];
    if (Math.sign(fx) !== Math.sign(fa)) [b, fb] = [a, fa];
    [a, fa] = [x, fx];
    const best = Math.abs(fa) < Math.abs(fb) ? a : b;
    const narrow = (2 * Number.EPSILON * Math.abs(best) + tolerance / 2) / Math.abs(b - a);
    if (narrow > 0.5 || fa === 0) return best;
    step = Math.min(1 - narrow, Math.max(narrow, nextStep(a, fa, b, fb, c, fc)));
  }
  return a;
}

function nextStep(a: number, fa: number, b: number, fb: number, c: number, fc: number): number {
  const position = (a - b) / (c - b);
  const height = (fa - fb) / (fc - fb);
  const interpolates = height ** 2 < position && (1 - height) ** 2 < 1 - position;
  if (!interpolates) return 0.5;
  return (fa / (fb - fa)) * (fc / (fb - fc)) + ((((c - a) / (b - a)) * fa) / (fc - fa)) * (fb / (fc - fb));
}

/**
 * The largest value of a concave function between `low` and `high`, by golden
 * section. Near its top a function is flat, so the value is good to the last
 * digits long before the place is.
 */
export function maximumOfConcave(f: (x: number) => number, low: number, high: number): number {
  let [left, right] = [low, high];
  let [a, b] = [right - GOLDEN * (right - left), left + GOLDEN * (right - left)];
  let [fa, fb] = [f(a), f(b)];
  for (let count = 0; count < 45; count += 1) {
    if (fa < fb) {
      [left, a, fa] = [a, b, fb];
      b = left + GOLDEN * (right - left);
      fb = f(b);
    } else {
      [right, b, fb] = [b, a, fa];
      a = right - GOLDEN * (right - left);
      fa = f(a);
    }
  }
  return Math.max(fa, fb, f(low), f(high));
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;
