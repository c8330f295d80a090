import type { ReactNode } from 'react';
import type { DiverChoice, MixChoice } from '../../../core/mixes/choice';
import { roomOrder, tightestOf } from '../../../core/ledger/tightest';
import type { Dive } from '../../../core/document/types';
import type { System } from '../../../core/words/quantity';
import { deepestLevel } from '../../../core/ledger/level-limits';
import { setMix } from '../../actions/dives';
import { tell } from '../../actions/edit';
import { depthText, mixText, NO_FIGURE, numberText, percentText, unitText } from '../../figures/format';
import { useDesk } from '../../store/store';
import { divesText, readable } from './dive-later';
import { MixSample, type MixLine } from './mix-line';
import { moneyText, noStopText, roomOfDive, whyText } from './mixes-words';
import { WideTable } from './wide-table';
import styles from './dive-table.module.css';

/** The diver a choice leaves with the least room, else the first of whom nothing is known. */
export function tightestDiver({ divers }: MixChoice): DiverChoice | null {
  const byEntry = new Map(divers.map((each) => [each.entry, each]));
  const [least] = tightestOf([...byEntry.keys()], (entry) => byEntry.get(entry)!.room);
  return (least && byEntry.get(least)) ?? divers[0] ?? null;
}

/** A choice as it is for one diver. */
export function onlyOf(choice: MixChoice, diverId: string): MixChoice {
  const divers = choice.divers.filter((each) => each.diverId === diverId);
  return { ...choice, divers, allowed: divers.every((each) => each.whyNot === null) };
}

/** The most any of the divers takes of a figure. */
function most(choice: MixChoice, figure: (diver: DiverChoice) => number | null): number | null {
  const values = choice.divers.map(figure);
  return values.includes(null) || values.length === 0 ? null : Math.max(...values.map(Number));
}

function figureText(value: number | null | undefined, decimals: number): string {
  return typeof value === 'number' ? numberText(value, decimals, 'up') : NO_FIGURE;
}

/** A figure of a mix in words; past a limit it stands out. */
interface FigureCell {
  readonly text: string;
  /** The depth it is for. */
  readonly at?: string;
  readonly isCare?: boolean;
}

interface FigureRow {
  readonly head: string;
  readonly cell: (choice: MixChoice, least: DiverChoice | null) => FigureCell;
}

function stopsCell(diver: DiverChoice | null, units: System): FigureCell {
  const stops = diver?.entry.stops;
  if (stops === undefined) return { text: NO_FIGURE };
  if (stops === null) return { text: 'no way up found', isCare: true };
  if (stops.length === 0) return { text: 'none' };
  const each = stops.map(
    ({ depthM, min }) => `${numberText(min, 0, 'up')} min at ${depthText(depthM, units)}`,
  );
  return { text: each.join(', '), isCare: true };
}

function figureRows(dive: Dive, units: System, currency: string | undefined): readonly FigureRow[] {
  const depth = depthText(dive.depthM, units);
  return [
    {
      head: 'Can be used',
      cell: ({ divers }) => {
        const reason = divers.find((each) => each.whyNot)?.whyNot ?? null;
        return reason ? { text: whyText(reason, units), isCare: true } : { text: 'yes' };
      },
    },
    {
      head: 'No-stop time',
      cell: (_, diver) => {
        if (!diver) return { text: NO_FIGURE };
        const { depthM, noStopMin, unlimited } = deepestLevel(diver.entry.levels);
        return { text: noStopText({ min: noStopMin, unlimited }), at: `at ${depthText(depthM, units)}` };
      },
    },
    {
      head: 'Room',
      cell: (_, diver) =>
        diver
          ? { text: roomOfDive(diver.entry, diver.room), isCare: roomOrder(diver.entry, diver.room) < 0 }
          : { text: NO_FIGURE },
    },
    { head: 'Stops it would need', cell: (_, diver) => stopsCell(diver, units) },
    {
      head: 'MOD',
      cell: (_, diver) => ({ text: unitText(diver?.entry.modM ?? null, 'depth', units, 'down') }),
    },
    { head: `PO2 at ${depth}`, cell: (_, diver) => ({ text: figureText(diver?.entry.po2Bar, 2) }) },
    {
      head: `EAD at ${depth}`,
      cell: (_, diver) => ({ text: unitText(diver?.entry.eadM ?? null, 'depth', units, 'up', 1) }),
    },
    {
      head: 'CNS after',
      cell: (choice) => ({
        text: percentText(
          most(choice, (each) => each.entry.cns.after),
          'up',
        ),
      }),
    },
    {
      head: 'OTU of the dive',
      cell: (choice) => ({
        text: figureText(
          most(choice, (each) => each.entry.otu.dive),
          0,
        ),
      }),
    },
    {
      head: 'Gas density',
      cell: (_, diver) => ({ text: `${figureText(diver?.entry.gasDensityGL, 1)} g/L` }),
    },
    { head: 'A fill', cell: ({ mix }) => ({ text: moneyText(mix.costPerFill, currency) }) },
    {
      head: 'Effect on later dives',
      cell: ({ later }) => {
        const count = readable(later).length;
        return { text: count === 0 ? 'nothing' : divesText(count) };
      },
    },
  ];
}

/** The mixes side by side: what each allows, what it takes, and what it changes later. */
export function DiveTable(props: {
  readonly dive: Dive;
  readonly choices: readonly MixChoice[];
  readonly lines: readonly MixLine[];
  readonly takenIds: ReadonlySet<string | undefined>;
  readonly inHand: string | null;
  readonly hold: (mixId: string) => void;
}): ReactNode {
  const { dive, choices, lines, takenIds, inHand, hold } = props;
  const units = useDesk(({ settings }) => settings.units);
  const currency = useDesk(({ trip }) => trip.currency);
  const least = choices.map(tightestDiver);
  const rows = figureRows(dive, units, currency);
  return (
    <WideTable label="Table of mixes for this dive">
      <table className={styles.table}>
        <thead>
          <tr>
            <td />
            {choices.map(({ mix }, at) => (
              <th key={mix.id} scope="col" className={takenIds.has(mix.id) ? styles.taken : ''}>
                <button
                  type="button"
                  className={styles.name}
                  aria-pressed={inHand === mix.id}
                  onMouseEnter={() => hold(mix.id)}
                  onFocus={() => hold(mix.id)}
                  onClick={() => hold(mix.id)}
                >
                  <MixSample line={lines[at]!} />
                  <br />
                  {mixText(mix.analysedO2 ?? mix.o2)}
                </button>
                {takenIds.has(mix.id) ? <span className="soft"> now</span> : null}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ head, cell }) => (
            <tr key={head}>
              <th scope="row">{head}</th>
              {choices.map((choice, at) => {
                const { text, at: depth, isCare } = cell(choice, least[at]!);
                return (
                  <td key={choice.mix.id} className={takenIds.has(choice.mix.id) ? styles.taken : ''}>
                    <span className={isCare ? 'care' : ''}>
                      {depth === undefined ? text : <strong className={styles.lead}>{text}</strong>}
                    </span>
                    {depth === undefined ? null : <i className="soft"> {depth}</i>}
                  </td>
                );
              })}
            </tr>
          ))}
          <tr>
            <th scope="row">
              <span className="unseen">Use it</span>
            </th>
            {choices.map(({ mix }) => {
              const name = mixText(mix.analysedO2 ?? mix.o2);
              return (
                <td key={mix.id} className={takenIds.has(mix.id) ? styles.taken : ''}>
                  <button
                    type="button"
                    className="button"
                    disabled={dive.mix === mix.id}
                    aria-label={`Use ${name} on this dive`}
                    onClick={() => tell(setMix(dive.id, mix.id))}
                  >
                    {dive.mix === mix.id ? 'In use' : 'Use'}
                  </button>
                </td>
              );
            })}
          </tr>
        </tbody>
      </table>
    </WideTable>
  );
}
