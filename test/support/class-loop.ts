/** A loop of the class, and its figures by small steps: the law as it stands, with nothing of the closed forms. */
import type { ClassLoop } from '../../core/mixes/class-dive';
import { NOAA_LIMITS } from '../../core/oxygen/limits';
import { COMPARTMENTS } from '../../core/tissues/compartments';

export function aClassLoop(change: Partial<ClassLoop> = {}): ClassLoop {
  return { lowBar: 0.7, highBar: 1.2, switchM: 6, diluentPercent: 21, ...change };
}

/** Gauge water at sea level. Source: EN 13319, ISO 2533. */
const SURFACE_BAR = 1.01325;
const BAR_PER_M = (1019.7 * 9.80665) / 100_000;
const VAPOUR_BAR = 0.0627;
const STEP_MIN = 0.004;

function heldBar(loop: ClassLoop, depthM: number, strayBar: number): number {
  const dry = SURFACE_BAR + BAR_PER_M * depthM - VAPOUR_BAR;
  const set = (depthM >= loop.switchM ? loop.highBar : loop.lowBar) + strayBar;
  return Math.max(Math.min(set, dry), (loop.diluentPercent / 100) * dry);
}

function nitrogenBar(loop: ClassLoop, depthM: number, strayBar: number): number {
  return SURFACE_BAR + BAR_PER_M * depthM - VAPOUR_BAR - heldBar(loop, depthM, strayBar);
}

/** Depths in the middle of small steps from one to another. */
function* way(fromM: number, toM: number, min: number): Generator<{ depthM: number; min: number }> {
  const count = Math.max(1, Math.round(min / STEP_MIN));
  for (let i = 0; i < count; i += 1) {
    yield { depthM: fromM + ((toM - fromM) * (i + 0.5)) / count, min: min / count };
  }
}

function breathed(
  loop: ClassLoop,
  strayBar: number,
  tensions: number[],
  steps: ReturnType<typeof way>,
): void {
  for (const { depthM, min } of steps) {
    const inspired = nitrogenBar(loop, depthM, strayBar);
    COMPARTMENTS.forEach(({ halfTimeMin }, i) => {
      tensions[i] = inspired + (tensions[i]! - inspired) * 2 ** (-min / halfTimeMin);
    });
  }
}

function limitMin(po2: number): number {
  if (po2 <= 0.5) return Infinity;
  const above = NOAA_LIMITS.findIndex((row) => po2 <= row.po2Bar);
  const [low, high] = [NOAA_LIMITS[Math.max(0, above - 1)]!, NOAA_LIMITS[above]!];
  if (low === high) return high.singleMin;
  const share = (po2 - low.po2Bar) / (high.po2Bar - low.po2Bar);
  return low.singleMin + share * (high.singleMin - low.singleMin);
}

/** A first dive straight down at 18 m a minute and straight up at 9. @param toleranceBar of the setpoint */
export function onLoopByHand(loop: ClassLoop, depthM: number, toleranceBar: number, gradientHigh: number) {
  const down = depthM / 18;
  const isWithin = (bottomMin: number): boolean => {
    const tensions = COMPARTMENTS.map(() => 0.79 * (SURFACE_BAR - VAPOUR_BAR));
    breathed(loop, -toleranceBar, tensions, way(0, depthM, down));
    // A stay is one step, as nothing changes in it.
    const inspired = nitrogenBar(loop, depthM, -toleranceBar);
    COMPARTMENTS.forEach(({ halfTimeMin }, i) => {
      tensions[i] = inspired + (tensions[i]! - inspired) * 2 ** (-(bottomMin - down) / halfTimeMin);
    });
    breathed(loop, -toleranceBar, tensions, way(depthM, 0, depthM / 9));
    return COMPARTMENTS.every(
      ({ aBar, b }, i) => tensions[i]! <= SURFACE_BAR + gradientHigh * (aBar + SURFACE_BAR / b - SURFACE_BAR),
    );
  };
  let [from, to] = [down, 600];
  while (to - from > 0.001) {
    const middle = (from + to) / 2;
    if (isWithin(middle)) from = middle;
    else to = middle;
  }
  const nitrogen = nitrogenBar(loop, depthM, -toleranceBar);
  return {
    po2Bar: heldBar(loop, depthM, 0),
    eadM: (nitrogen / 0.79 + VAPOUR_BAR - SURFACE_BAR) / BAR_PER_M,
    noStopMin: from,
  };
}

/** CNS and OTU of such a dive, with three minutes at 5 m on the way up. */
export function clocksByHand(loop: ClassLoop, depthM: number, bottomMin: number, toleranceBar: number) {
  const down = depthM / 18;
  let [cns, otu] = [0, 0];
  for (const steps of [
    way(0, depthM, down),
    way(depthM, depthM, bottomMin - down),
    way(depthM, 5, (depthM - 5) / 9),
    way(5, 5, 3),
    way(5, 0, 5 / 9),
  ]) {
    for (const step of steps) {
      const po2 = heldBar(loop, step.depthM, toleranceBar);
      cns += step.min / limitMin(po2);
      otu += po2 > 0.5 ? step.min * ((po2 - 0.5) / 0.5) ** (5 / 6) : 0;
    }
  }
  return { cns, otu };
}
