/** What stands on the card of a dive, each figure with its label and what it is held against; worded by its reader. */
import { DENSITY_ADVISED_GL, isAbovePo2 } from '../../../../core/gas';
import { deepestLevel, staysOf } from '../../../../core/ledger/level-limits';
import type { Entry, EntryLevel, LoopFigures, Room } from '../../../../core/ledger/ledger-types';
import type { SecondOpinion } from '../../../../core/ledger/second-opinion';
import { opinionAsideSaid, opinionSaid } from '../../../../core/ledger/second-opinion-said';
import { stopsSaid } from '../../../../core/ledger/stops-said';
import { isRoomUnknown, isTooLong } from '../../../../core/ledger/tightest';
import { wallText } from '../../../../core/words/calendar';
import {
  bare,
  clockSpan,
  figure,
  moment,
  NOTHING,
  said,
  timeOfDay,
  type Figure,
  type Piece,
  type Said,
} from '../../../../core/words/said';
import { NONE, PAST, SHORT_LIMITS, THE_LIMITS, UNLIMITED } from '../../../../core/words/terms';
import type { FigureId } from '../../../../core/workings/types';

/** From here on a figure is set in the cautionary colour. */
export const CARE_BELOW_MIN = 5;
const CARE_BELOW_M = 1;
const CARE_BELOW_EARLIER_MIN = 15;
const CARE_ABOVE_CNS = 0.8;
/** A level and its limit may differ by this much through rounding alone. */
const DUST_MIN = 1e-9;

export interface CardRow {
  /** Whose workings are shown when it is asked for. */
  readonly figure: FigureId;
  readonly label: Said;
  readonly value: Piece;
  readonly aside: Said;
  readonly care: boolean;
}

/** One of the figures that are read at arm's length: a number with its unit set smaller, or a word or two. */
export interface HeroFigure extends Omit<CardRow, 'value'> {
  readonly value: Figure | Said;
  /** The limit it tells of is passed. */
  readonly isPast: boolean;
}

/** A level of a dive that has several, with its own no-stop time. */
export interface LevelRow {
  readonly figure: FigureId;
  readonly label: Said;
  readonly time: Piece;
  readonly noStop: Piece;
  readonly left: Piece;
  readonly care: boolean;
}

export interface CardGroup {
  readonly name: Said;
  readonly rows: readonly CardRow[];
}

/** What the figures of a card depend on. */
export interface CardSource {
  /** One that is made. */
  readonly entry: Entry;
  readonly room: Room;
  readonly opinion: SecondOpinion | null;
}

function noStopOf({ noStopMin, unlimited }: Pick<EntryLevel, 'noStopMin' | 'unlimited'>): Figure | Said {
  return unlimited ? UNLIMITED : figure('minutesLeft', noStopMin);
}

function isLevelPast({ min, noStopMin }: EntryLevel): boolean {
  return noStopMin !== null && min > noStopMin + DUST_MIN;
}

/** No-stop time at the deepest level, room to the first limit met, and what is left in the cylinder. */
export function heroOf({ entry, room }: CardSource): readonly HeroFigure[] {
  const level = deepestLevel(entry.levels);
  const isPast = entry.levels.length === 1 ? entry.isPastLimit : isLevelPast(level);
  return [
    {
      figure: entry.levels.length === 1 ? 'noStopMin' : `levels.${entry.levels.indexOf(level)}`,
      label: said`No-stop time`,
      value: noStopOf(level),
      aside: said`at ${figure(entry.isAsDived ? 'depthMet' : 'depthSet', level.depthM)}`,
      care: isPast,
      isPast,
    },
    roomHero(entry, room),
    entry.loop === null ? leftHero(entry) : scrubberHero(entry.loop),
  ];
}

function leftHero({ diver, gas }: Entry): HeroFigure {
  const { fillBar, reserveBar } = diver.cylinder;
  const { endBar, usedL } = gas;
  return {
    figure: 'endBar',
    label: said`Pressure left`,
    value: usedL !== null && endBar === null ? said`none` : figure('pressureLeft', endBar),
    aside: said`of ${bare('pressureLeft', fillBar)}, reserve ${bare('pressureNeeded', reserveBar)}`,
    care: endBar === null || endBar < reserveBar,
    isPast: usedL !== null && (endBar === null || endBar < reserveBar),
  };
}

/** A loop has no one cylinder; its own part of the card has the rest. */
function scrubberHero({ scrubber: { leftMin } }: LoopFigures): HeroFigure {
  return {
    figure: 'endBar',
    label: said`Scrubber left`,
    value: leftMin < 0 ? said`none` : figure('minutesLeft', leftMin),
    aside: NOTHING,
    care: leftMin < 0,
    isPast: leftMin < 0,
  };
}

function roomHero(entry: Entry, { min, minLimit }: Room): HeroFigure {
  const label = said`Room`;
  if (minLimit === null) {
    return {
      figure: 'room.min',
      label,
      value: said`${NONE}`,
      aside: said`no limit in reach`,
      care: false,
      isPast: false,
    };
  }
  if (min === null) {
    const isUnknown = isRoomUnknown(entry, minLimit);
    return {
      figure: 'room.min',
      label,
      value: isUnknown ? said`${NONE}` : PAST,
      aside: isUnknown ? said`CNS not known` : THE_LIMITS[minLimit],
      care: true,
      isPast: !isUnknown,
    };
  }
  return isTooLong(min)
    ? {
        figure: 'room.min',
        label: said`Over by`,
        value: figure('minutesMet', -min),
        aside: THE_LIMITS[minLimit],
        care: true,
        isPast: true,
      }
    : {
        figure: 'room.min',
        label,
        value: figure('minutesLeft', Math.max(0, min)),
        aside: said`to ${THE_LIMITS[minLimit]}`,
        care: min < CARE_BELOW_MIN,
        isPast: false,
      };
}

/** The levels of a dive, and behind them the whole time with the last one lengthened; none of a square dive. */
export function levelRowsOf({ entry }: CardSource): readonly LevelRow[] {
  if (entry.levels.length < 2) return [];
  const ofLevels = staysOf(entry).map((level, index): LevelRow => ({
    figure: `levels.${index}`,
    label: said`${figure(entry.isAsDived ? 'depthMet' : 'depthSet', level.depthM)}`,
    time: figure(entry.isAsDived ? 'minutesDived' : 'minutesSet', level.min),
    noStop: noStopOf(level),
    left: leftOf(level),
    care: isLevelPast(level),
  }));
  // No time on the last level keeps a limit that an earlier one passed.
  const isPastLevel = entry.levelsPastLimitM.length > 0;
  const whole: EntryLevel = { ...entry, min: entry.bottomMin };
  return [
    ...ofLevels,
    {
      figure: 'noStopMin',
      label: said`Whole time`,
      time: figure(entry.isAsDived ? 'minutesDived' : 'minutesSet', entry.bottomMin),
      noStop: isPastLevel ? NONE : noStopOf(entry),
      left: isPastLevel ? PAST : leftOf(whole),
      care: entry.isPastLimit,
    },
  ];
}

function leftOf({ min, noStopMin, unlimited }: EntryLevel): Piece {
  if (unlimited || noStopMin === null) return NONE;
  return isTooLong(noStopMin - min)
    ? said`${figure('minutesMet', min - noStopMin)} over`
    : figure('minutesLeft', Math.max(0, noStopMin - min));
}

/** All else, by what it is about. */
export function groupsOf(source: CardSource): readonly CardGroup[] {
  const { entry, opinion } = source;
  return [
    { name: said`Nitrogen`, rows: nitrogenRows(source) },
    { name: said`Oxygen`, rows: oxygenRows(entry) },
    { name: said`Gas`, rows: gasRows(entry) },
    {
      name: said`Second opinion`,
      rows: [
        {
          figure: 'secondOpinion',
          label: said`Air table`,
          value: opinionSaid(opinion),
          aside: opinionAsideSaid(opinion, entry.isMade),
          care: false,
        },
      ],
    },
  ];
}

function nitrogenRows({ entry, room }: CardSource): readonly CardRow[] {
  const { intervalMin, stops } = entry;
  const deeperM = room.m === null ? null : entry.depthM + room.m;
  const stopsRow: CardRow = {
    figure: 'stops',
    label: said`Stops needed`,
    value: stops === null ? NONE : stops.length,
    aside: stopsSaid(stops),
    care: true,
  };
  return [
    ...(stops !== null && stops.length === 0 ? [] : [stopsRow]),
    {
      figure: 'interval',
      label: said`Interval before`,
      value: intervalMin === null ? NONE : clockSpan(intervalMin, 'down'),
      aside: intervalMin === null ? said`first dive` : NOTHING,
      care: intervalMin !== null && intervalMin < 0,
    },
    {
      figure: 'earlierMin',
      label: said`Earliest start`,
      value: earliestSaid(entry, room),
      aside: earlierSaid(room),
      care: room.earlierMin === null ? room.earlierLimit !== null : room.earlierMin < CARE_BELOW_EARLIER_MIN,
    },
    {
      figure: 'room.m',
      label: said`Deepest`,
      value: figure('depthLimitFine', deeperM),
      aside: deeperSaid(room),
      care: room.m === null ? room.mLimit !== null : room.m < CARE_BELOW_M,
    },
  ];
}

/** Null without a limit: the interval does not matter. Null with one: it is not possible at any interval. */
function earliestSaid(entry: Entry, { earlierMin, earlierLimit }: Room): Piece {
  if (earlierMin === null) return earlierLimit === null ? said`any time` : NONE;
  const at = wallText(entry.startMin - earlierMin);
  return at.slice(0, 10) === entry.dive.startsAt.slice(0, 10) ? timeOfDay(at.slice(11)) : moment(at);
}

function earlierSaid({ earlierMin, earlierLimit }: Room): Said {
  if (earlierMin === null) return earlierLimit === null ? NOTHING : said`not possible at any interval`;
  return earlierMin < 0
    ? said`${clockSpan(-earlierMin, 'up')} later`
    : said`${clockSpan(earlierMin, 'down')} sooner`;
}

/** Metres left to a limit, or too many by how much; that no shallower dive would keep one, or that nothing is known. */
function deeperSaid({ m, mLimit }: Room): Said {
  if (mLimit === null) return said`no limit in reach`;
  if (m === null) return mLimit === 'po2' ? said`not known` : said`past ${THE_LIMITS[mLimit]}, shallower too`;
  return m < 0
    ? said`${figure('depthMetFine', -m)} too deep, ${SHORT_LIMITS[mLimit]}`
    : said`${figure('depthLimitFine', m)} to ${SHORT_LIMITS[mLimit]}`;
}

function oxygenRows(entry: Entry): readonly CardRow[] {
  const { cns, otu, po2Bar, modM } = entry;
  return [
    {
      figure: 'po2Bar',
      label: said`PO2 at ${figure(entry.isAsDived ? 'depthMet' : 'depthSet', entry.depthM)}`,
      value: bare('po2Met', po2Bar),
      aside: modM === null ? NOTHING : said`MOD ${figure('depthLimit', modM)}`,
      care: po2Bar !== null && isAbovePo2(po2Bar, entry.diver.po2.working),
    },
    {
      figure: 'cns.after',
      label: said`CNS clock`,
      value: said`${bare('shareMet', cns.before)} to ${figure('shareMet', cns.after)}`,
      aside: said`24 h: ${figure('shareMet', cns.day)}`,
      care: (cns.after ?? 1) > CARE_ABOVE_CNS || (cns.day ?? 1) > CARE_ABOVE_CNS,
    },
    {
      figure: 'otu.dive',
      label: said`OTU`,
      value: bare('doseMet', otu.dive),
      aside: said`day ${bare('doseMet', otu.day)}, trip ${bare('doseMet', otu.trip)}`,
      care: false,
    },
  ];
}

function gasRows({ gas, gasDensityGL, eadM, loop }: Entry): readonly CardRow[] {
  const rows: readonly CardRow[] = [
    {
      figure: 'turnBar',
      label: said`Turn at`,
      value: figure('pressureNeeded', gas.turnBar),
      aside: gas.usedL === null ? NOTHING : said`uses ${figure('gasUsed', gas.usedL)}`,
      care: false,
    },
    {
      figure: 'minimumBar',
      label: said`Minimum gas`,
      value: figure('pressureNeeded', gas.minimumBar),
      aside: said`on leaving`,
      care: false,
    },
    {
      figure: 'gasDensityGL',
      label: said`Density`,
      value: figure('densityMet', gasDensityGL),
      aside: eadM === null ? NOTHING : said`EAD ${figure('depthMet', Math.max(0, eadM))}`,
      care: gasDensityGL !== null && gasDensityGL > DENSITY_ADVISED_GL,
    },
  ];
  return loop === null ? rows : rows.slice(2);
}
