import type { ReactNode } from 'react';
import type { Settings } from '../../../core/host';
import { DENSITY_ADVISED_GL } from '../../../core/gas';
import { wallText } from '../../../core/words/calendar';
import type { Entry, EntryLevel, Room, RoomLimit } from '../../../core/ledger/ledger-types';
import type { FigureId } from '../../../core/workings/types';
import { showOverlay } from '../../actions/view';
import {
  clockText,
  dateText,
  depthText,
  hoursText,
  minutesText,
  mixText,
  NO_FIGURE,
  numberText,
  percentText,
  spanText,
  unitText,
  valueText,
} from '../../figures/format';
import { LIMIT_WORDS, noMinutesText } from '../../figures/limits';
import { stopsText } from '../../figures/stops';
import { tableAside, tableText } from '../../figures/table-words';
import { type System as Units } from '../../../core/words/quantity';
import { roomOfEntry, secondOpinionOf } from '../../store/selectors';
import { useDesk } from '../../store/store';

/** From here on a figure is set in the cautionary colour and its aside says how much is left. */
const CARE_BELOW_MIN = 5;
const CARE_BELOW_M = 1;
const CARE_BELOW_EARLIER_MIN = 15;
const CARE_ABOVE_CNS = 0.8;
/** A level and its limit may differ by this much through rounding alone. */
const DUST_MIN = 1e-9;

/** The same where a figure stands before it. */
const SHORT_LIMITS: Readonly<Record<RoomLimit, string>> = {
  ...LIMIT_WORDS,
  'no-stop': 'limit',
  'diver-depth': 'own limit',
};

interface Row {
  readonly figure: FigureId;
  readonly label: string;
  readonly value: string;
  readonly aside: string;
  readonly care: boolean;
}

function useRows(entry: Entry, room: Room): readonly Row[] {
  const opinion = useDesk((state) => secondOpinionOf(state, entry));
  const altitudeM = useDesk(({ trip }) => trip.water.altitudeM);
  const { units, clock } = useDesk((state) => state.settings);
  const { cns, otu, gas } = entry;
  const deeperM = room.m === null ? null : entry.depthM + room.m;

  return [
    ...noStopRows(entry, units),
    {
      figure: 'room.min',
      label: 'Room',
      value: room.min === null ? NO_FIGURE : minutesText(room.min, 'down'),
      aside:
        room.minLimit === null
          ? 'no limit in reach'
          : room.min === null
            ? noMinutesText(entry, room.minLimit)
            : LIMIT_WORDS[room.minLimit],
      care: room.min === null ? room.minLimit !== null : room.min < CARE_BELOW_MIN,
    },
    {
      figure: 'room.m',
      label: 'As long, down to',
      value: deeperM === null ? NO_FIGURE : unitText(deeperM, 'depth', units, 'down', 1),
      aside:
        room.mLimit === null
          ? 'no limit in reach'
          : room.m === null
            ? noDepthText(room.mLimit)
            : deeperText(room.m, SHORT_LIMITS[room.mLimit], units),
      care: room.m === null ? room.mLimit !== null : room.m < CARE_BELOW_M,
    },
    {
      figure: 'earlierMin',
      label: 'Earliest start',
      value: earliestText(entry, room, clock),
      aside: earlierText(room),
      care: room.earlierMin === null ? room.earlierLimit !== null : room.earlierMin < CARE_BELOW_EARLIER_MIN,
    },
    {
      figure: 'interval',
      label: 'Interval',
      value: entry.intervalMin === null ? NO_FIGURE : hoursText(entry.intervalMin, 'down'),
      aside: entry.intervalMin === null ? 'the first dive' : '',
      care: false,
    },
    {
      figure: 'po2Bar',
      label: `PO2 at ${depthText(entry.depthM, units)}`,
      value: entry.po2Bar === null ? NO_FIGURE : numberText(entry.po2Bar, 2, 'up'),
      aside: entry.modM === null ? '' : `MOD ${unitText(entry.modM, 'depth', units, 'down')}`,
      care: entry.po2Bar !== null && entry.po2Bar > entry.diver.po2.working + 1e-9,
    },
    {
      figure: 'cns.after',
      label: 'CNS clock',
      value: `${percentText(cns.before, 'up').replace(' %', '')} → ${percentText(cns.after, 'up')}`,
      aside: `24 h: ${percentText(cns.day, 'up')}`,
      care: (cns.after ?? 1) > CARE_ABOVE_CNS || (cns.day ?? 1) > CARE_ABOVE_CNS,
    },
    {
      figure: 'otu.dive',
      label: 'OTU',
      value: otu.dive === null ? NO_FIGURE : numberText(otu.dive, 0, 'up'),
      aside: `day ${numberText(otu.day, 0, 'up')}, trip ${numberText(otu.trip, 0, 'up')}`,
      care: false,
    },
    {
      figure: 'gasDensityGL',
      label: 'Gas density',
      value: entry.gasDensityGL === null ? NO_FIGURE : `${numberText(entry.gasDensityGL, 1, 'up')} g/L`,
      aside: entry.eadM === null ? '' : `EAD ${unitText(Math.max(0, entry.eadM), 'depth', units, 'up')}`,
      care: entry.gasDensityGL !== null && entry.gasDensityGL > DENSITY_ADVISED_GL,
    },
    {
      figure: 'endBar',
      label: 'Pressure',
      value: `${valueText(entry.diver.cylinder.fillBar, 'pressure', units, 'down')} → ${unitText(gas.endBar, 'pressure', units, 'down')}`,
      aside: gas.turnBar === null ? '' : `turn at ${valueText(gas.turnBar, 'pressure', units, 'up')}`,
      care: gas.endBar === null || gas.endBar < entry.diver.cylinder.reserveBar,
    },
    {
      figure: 'secondOpinion',
      label: 'By the air table',
      value: tableText(opinion),
      aside: tableAside(opinion, altitudeM, entry.isMade, units),
      care: false,
    },
  ];
}

function noStopText({ noStopMin, unlimited }: Pick<EntryLevel, 'noStopMin' | 'unlimited'>): string {
  return unlimited ? 'unlimited' : minutesText(noStopMin, 'down');
}

/** The no-stop time; of a dive of several levels each one's, and the whole time after them. */
function noStopRows(entry: Entry, units: Units): readonly Row[] {
  const stops = stopsText(entry.stops, units);
  if (entry.levels.length < 2) {
    return [
      {
        figure: 'noStopMin',
        label: 'No-stop time',
        value: noStopText(entry),
        aside: stops,
        care: entry.isPastLimit,
      },
    ];
  }
  const isPastLevel = entry.levelsPastLimitM.length > 0;
  return [
    ...entry.levels.map((level, index): Row => ({
      figure: `levels.${index}`,
      label: `No-stop at ${depthText(level.depthM, units)}`,
      value: noStopText(level),
      aside: `${entry.isAsDived ? 'dived' : 'planned'} ${minutesText(level.min, 'up')}`,
      care: level.noStopMin !== null && level.min > level.noStopMin + DUST_MIN,
    })),
    {
      figure: 'noStopMin',
      label: 'Whole time',
      // No time on the last level keeps a limit that an earlier one passed.
      value: isPastLevel ? NO_FIGURE : noStopText(entry),
      aside: [stops, isPastLevel ? 'past the limit on an earlier level' : 'last level lengthened']
        .filter((text) => text !== '')
        .join(', '),
      care: entry.isPastLimit,
    },
  ];
}

/** Null without a limit: the interval does not matter. Null with one: no interval would do. */
function earliestText(entry: Entry, room: Room, clock: Settings['clock']): string {
  const atMin = room.earlierMin === null ? null : entry.startMin - room.earlierMin;
  if (atMin === null) return room.earlierLimit === null ? 'any time' : 'none';
  const at = wallText(atMin);
  const isSameDay = at.slice(0, 10) === entry.dive.startsAt.slice(0, 10);
  return isSameDay ? clockText(at, clock) : `${dateText(at)}, ${clockText(at, clock)}`;
}

function earlierText({ earlierMin, earlierLimit }: Room): string {
  if (earlierMin === null) return earlierLimit === null ? '' : 'no interval would do';
  return earlierMin < 0 ? `${spanText(-earlierMin, 'up')} too soon` : `${spanText(earlierMin, 'down')} left`;
}

/** Of a dive that is past a limit wherever it is thought, or whose clocks tell nothing. */
function noDepthText(limit: RoomLimit): string {
  return limit === 'po2' ? 'not known' : `past the ${LIMIT_WORDS[limit]} at any depth`;
}

/** Metres left to a limit, or too many by how much. */
function deeperText(m: number, limit: string, units: Units): string {
  return m < 0
    ? `${unitText(-m, 'depth', units, 'up', 1)} too deep, ${limit}`
    : `${unitText(m, 'depth', units, 'down', 1)} to ${limit}`;
}

function ask(entry: Entry, figure: FigureId): void {
  showOverlay({ kind: 'workings', figure, diveId: entry.dive.id, diverId: entry.diver.id });
}

/** What comes of a dive for one diver; every row can be asked how it is worked out. */
export function Outcome({ entry }: { readonly entry: Entry }): ReactNode {
  const room = useDesk((state) => roomOfEntry(state, entry));
  return room ? <Rows entry={entry} room={room} /> : null;
}

function Rows({ entry, room }: { readonly entry: Entry; readonly room: Room }): ReactNode {
  const rows = useRows(entry, room);
  return (
    <>
      <table className="outcome">
        <caption className="unseen">
          What comes of it for {entry.diver.name}
          {entry.o2 === null ? '' : ` on ${mixText(entry.o2)}`}
        </caption>
        <tbody>
          {rows.map(({ figure, label, value, aside, care }) => (
            <tr key={figure} className={care ? 'care' : undefined}>
              <th scope="row">
                <button
                  type="button"
                  className="ask"
                  title="How is this worked out?"
                  onClick={() => ask(entry, figure)}
                >
                  {label}
                </button>
              </th>
              <td className="figure">{value}</td>
              <td className="aside">{aside}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <button type="button" className="linked" onClick={() => ask(entry, rows[0]!.figure)}>
        How is this worked out?
      </button>
    </>
  );
}
