/** Small trips that ask for mending, from a seed. */
import type { AsDived, Dive, Diver, LoopGear, Trip } from '../../core/document/types';
import { FULL_REACH } from '../../core/proposal/mend/moves';
import { USUAL_REQUEST, type MendRequest } from '../../core/proposal/mend/request';
import { aDiver, aTrip } from '../builders/trip';

export interface MendCase {
  readonly trip: Trip;
  readonly request: MendRequest;
  readonly theme: Theme;
}

/** What the dives of a case are tight in. */
const THEMES = [
  'nitrogen',
  'oxygen',
  'gas',
  'several mixes',
  'flight',
  'other view',
  'long',
  'night',
  'levels',
] as const;
export type Theme = (typeof THEMES)[number] | 'loops';

/** Random numbers from a seed: mulberry32, in the public domain. */
function numbersFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

class Chance {
  readonly next: () => number;

  constructor(seed: number) {
    this.next = numbersFrom(seed);
  }

  whole(from: number, to: number): number {
    return from + Math.floor(this.next() * (to - from + 1));
  }

  of<T>(list: readonly T[]): T {
    return list[this.whole(0, list.length - 1)]!;
  }

  is(share: number): boolean {
    return this.next() < share;
  }
}

const two = (n: number): string => String(n).padStart(2, '0');

function momentOf(min: number): string {
  return `2027-03-${two(Math.floor(min / 1440))}T${two(Math.floor(min / 60) % 24)}:${two(min % 60)}`;
}

function partyOf(chance: Chance, theme: Theme): readonly Diver[] {
  const isPlenty = theme === 'oxygen' || theme === 'long';
  const waterL = () => (isPlenty ? 24 : theme === 'gas' ? chance.of([10, 12]) : chance.of([15, 18]));
  return Array.from({ length: chance.of([1, 1, 2, 2, 3]) }, (_, i) => {
    const before = {
      startsAt: '2027-03-05T15:00',
      depthM: chance.whole(14, 24),
      bottomMin: chance.whole(25, 40),
    };
    return aDiver({
      id: `p${i}`,
      name: `Guest ${i}`,
      surfaceRateLpm: isPlenty ? 10 : chance.whole(11, theme === 'gas' ? 20 : 15),
      cylinder: { waterL: waterL(), fillBar: isPlenty ? 300 : 220, reserveBar: 50 },
      maxDepthM: chance.is(0.2) ? 28 : 40,
      maxO2: chance.is(0.2) ? 0.32 : 0.4,
      po2: { working: chance.is(0.2) ? 1.3 : 1.4, contingency: 1.6 },
      gradient: { low: 0.5, high: theme === 'oxygen' ? 0.95 : chance.of([0.7, 0.8, 0.85]) },
      ...(chance.is(0.15) && { rates: [{ from: '2027-03-07', surfaceRateLpm: chance.whole(11, 20) }] }),
      ...(chance.is(0.15) && { group: { name: `Group ${i}`, afterMin: chance.whole(5, 40) } }),
      ...(chance.is(0.1) && { certification: 'Open water' }),
      ...(chance.is(0.15) && { before: [{ id: 'b', mix: 'air', ...before }] }),
    });
  });
}

/** Near the limit of the theme, a quarter below to a quarter above. */
function bottomMinOf(chance: Chance, theme: Theme, depthM: number): number {
  const share = 0.75 + 0.5 * chance.next();
  const near =
    theme === 'oxygen' ? 60 : theme === 'long' ? 3000 / depthM - 60 : (theme === 'gas' ? 900 : 760) / depthM;
  return Math.max(12, Math.round(share * near));
}

function divesOf(chance: Chance, theme: Theme, party: readonly Diver[], count: number): readonly Dive[] {
  const dives: Dive[] = [];
  const isNight = theme === 'night';
  // By night the dives go on over midnight, so that days lean on each other as much as dives of one day do.
  let atMin = 6 * 1440 + (isNight ? chance.whole(18, 22) : chance.whole(7, 9)) * 60;
  for (let i = 0; i < count; i += 1) {
    const depthM =
      theme === 'oxygen'
        ? chance.whole(20, 26)
        : theme === 'long'
          ? chance.whole(10, 14)
          : chance.whole(16, 32);
    const bottomMin = bottomMinOf(chance, theme, depthM);
    const hasLevels = chance.is(theme === 'levels' ? 0.7 : 0.1) && depthM > 20 && bottomMin > 24;
    const legs = [
      { depthM, min: 14 },
      { depthM: 12, min: bottomMin - 14 },
    ];
    const analysed: AsDived[] = [{ by: 'p0', o2: 0.3 }];
    dives.push({
      id: `d${i}`,
      siteId: chance.is(0.1) ? 'shallow' : 'wall',
      startsAt: momentOf(atMin),
      depthM,
      bottomMin,
      mix: chance.is(0.7) ? 'auto' : chance.of(['air', 'rich']),
      ...(hasLevels && { legs }),
      ...(party.length > 1 &&
        chance.is(0.2) && { divers: party.slice(0, chance.whole(1, party.length)).map(({ id }) => id) }),
      ...(chance.is(0.1) && { safetyStop: null }),
      ...(chance.is(0.1) && { safetyStop: { depthM: 6, min: 4 } }),
      ...(chance.is(0.05) && { asDived: analysed }),
      ...(chance.is(0.05) && { notDived: chance.is(0.5) ? [{}] : [{ by: party.at(-1)!.id }] }),
      ...(chance.is(0.1) && { onBoard: [chance.of(['air', 'rich'])] }),
    });
    atMin += bottomMin + chance.whole(50, 200);
    const isEvening = atMin % 1440 > (theme === 'long' ? 14 : 20) * 60;
    if (!isNight && (isEvening || chance.is(0.1))) {
      atMin = (Math.floor(atMin / 1440) + 1) * 1440 + chance.whole(7, 9) * 60;
    }
  }
  return dives;
}

/** Near the published hours; near the table's wait, which is longer after much diving. */
function flightOf(chance: Chance, theme: Theme, last: Dive): Trip['flight'] {
  if (theme !== 'flight' && theme !== 'other view') return null;
  const [day, hour] = [Number(last.startsAt.slice(8, 10)), Number(last.startsAt.slice(11, 13))];
  if (theme === 'flight') return { at: `2027-03-${two(day + 1)}T${two(chance.whole(9, 20))}:00` };
  return { at: momentOf((day * 24 + hour + chance.whole(20, 24)) * 60) };
}

/** A loop that is tight in one thing or another. */
function loopOf(chance: Chance): LoopGear {
  const small = (waterL: number, fillBar: number) => ({ waterL, fillBar, reserveBar: 20 });
  return {
    setpoints: {
      lowBar: 0.7,
      highBar: chance.of([0.9, 1.1, 1.2, 1.3, 1.35]),
      switchM: chance.of([4, 6, 10, 18]),
    },
    diluent: chance.of(['air', 'air', 'rich']),
    oxygenCylinder: small(2, chance.of([60, 120, 200])),
    diluentCylinder: small(chance.of([1, 2]), chance.of([40, 100, 200])),
    scrubberMin: chance.of([45, 70, 110, 180]),
    bailOut: [
      { mix: 'air', cylinder: small(chance.of([2, 2.5, 3, 4, 6, 11]), 200) },
      ...(chance.is(0.4) ? [{ mix: 'rich', cylinder: small(chance.of([1, 2, 4]), 200) }] : []),
    ],
    ...(chance.is(0.3) && { bailOutRateLpm: chance.whole(15, 45) }),
  };
}

/** Some of the party on loops, on most of their dives; some of these shallow, where a loop gives nitrogen off. */
function mixedParty(chance: Chance, party: readonly Diver[], dives: readonly Dive[]) {
  const first = chance.whole(0, party.length - 1);
  const mixed = party.map((diver, at): Diver => (at < first ? diver : { ...diver, loop: loopOf(chance) }));
  const taken = dives.map((dive): Dive => {
    const loops = mixed
      .filter(({ id, loop }) => loop !== undefined && (dive.divers?.includes(id) ?? true) && chance.is(0.8))
      .map(({ id }) => ({
        by: id,
        ...(chance.is(0.3) && { freshScrubber: true }),
        ...(chance.is(0.15) && { setpoints: { lowBar: 0.5, highBar: 1, switchM: 12 } }),
        ...(chance.is(0.1) && { diluent: 'rich' }),
      }));
    const isShallow = dive.legs === undefined && chance.is(0.3);
    const shape = isShallow
      ? { depthM: chance.whole(6, 11) }
      : dive.legs === undefined
        ? { bottomMin: Math.round(dive.bottomMin * (1 + chance.next())) }
        : {};
    return { ...dive, ...shape, ...(loops.length > 0 && { loops }) };
  });
  return { party: mixed, dives: taken };
}

/** The case of a seed: two to five dives, few and long steps, so that every plan can be tried. @param asked null: any theme */
export function mendCase(seed: number, asked: Theme | null = null): MendCase {
  const chance = new Chance(seed);
  const theme = asked ?? chance.of(THEMES);
  const party = partyOf(chance, theme);
  const count = chance.whole(2, theme === 'long' ? 4 : 5);
  const onOpen = { party, dives: divesOf(chance, theme, party, count) };
  const { dives, ...those } = theme === 'loops' ? mixedParty(chance, party, onOpen.dives) : onOpen;
  const trip = aTrip(dives, {
    ...those,
    water: { density: 'gauge', altitudeM: chance.is(0.15) ? 1200 : 0 },
    settings: {
      descentMPerMin: 18,
      ascentMPerMin: 9,
      ...(theme === 'other view' && { cabinAltitudeM: chance.of([2400, 2700, 3000]) }),
      gasLaw: chance.is(0.15) ? 'real' : 'ideal',
      analysisTolerance: chance.is(0.1) ? 0.01 : 0,
    },
    sites: [
      { id: 'wall', name: 'Wall', depthM: 40, notes: '' },
      { id: 'shallow', name: 'Shallow', depthM: 20, notes: '', notFor: { certifications: ['open water'] } },
    ],
    mixes: [
      { id: 'air', o2: 0.21, costPerFill: 0 },
      { id: 'rich', o2: theme === 'oxygen' ? 0.38 : chance.of([0.28, 0.32, 0.36]), costPerFill: 5 },
    ],
    flight: flightOf(chance, theme, dives.at(-1)!),
  });
  const far = count <= 2 ? 4 : count === 3 ? 2 : 1;
  const isTied = chance.is(0.3);
  const request: MendRequest = {
    ...USUAL_REQUEST,
    doneCount: chance.is(0.25) ? 1 : 0,
    leastRoomMin: chance.is(0.3) ? chance.whole(1, 6) : 0,
    steps: {
      laterMin: chance.of([10, 15, 30]),
      shallowerM: chance.of([0.9144, 1, 2, 3]),
      shorterMin: chance.of([2, 4, 8]),
    },
    reach: {
      ...FULL_REACH,
      later: chance.whole(count < 5 ? 1 : 0, far),
      shallower: chance.whole(0, far),
      shorter: chance.whole(1, far),
      mix: chance.is(0.4),
      leaveOut: chance.is(0.5),
      drop: chance.is(0.7),
    },
    // Costs alike tie more, and dear moves are never made.
    costs: {
      later: chance.whole(1, 3),
      shallower: chance.whole(1, 4),
      shorter: chance.whole(1, 4),
      mix: chance.whole(1, 6),
      leaveOut: isTied ? chance.whole(1, 8) : chance.of([3, 8, 40]),
      drop: isTied ? chance.whole(1, 8) : chance.of([20, 60, 150]),
    },
  };
  return { trip, request, theme };
}
