import { useCallback, useMemo, useState, type ReactNode } from 'react';
import type { Diver } from '../../../core/document/types';
import { unitOf, type System as Units } from '../../../core/words/quantity';
import { capital, fileWords } from '../../../core/words/reader';
import { said, type Said } from '../../../core/words/said';
import { newDiverIds, putDivers } from '../../actions/party-cells';
import { goToDives } from '../../actions/view';
import { countText } from '../../figures/format';
import { USUAL_CYLINDERS } from '../../figures/parse-cylinder';
import { roomWords } from '../../figures/room';
import { Grid, type CellEdit, type GridColumn, type PutResult } from '../../parts/grid/grid';
import { newDiver } from '../../store/blank-trip';
import { say } from '../../store/notice';
import { diveNumber, selectRoomLimit, selectRoomMin } from '../../store/selectors';
import { desk, useDesk } from '../../store/store';
import {
  cellText,
  DIVER_FIELDS,
  namesIn,
  readDiverCell,
  type DiverChange,
  type DiverField,
} from './diver-cells';
import type { DiverFigures } from './party-figures';
import { choosePartyView } from './party-view';
import { entryDate, isCare, momentText } from './party-words';
import ask from './ask.module.css';
import styles from './diver-table.module.css';

function earlierText({ before = [], arrivedAt }: Diver): string {
  const count = before.length === 0 ? '' : String(before.length);
  const climb = arrivedAt === undefined ? '' : 'climb';
  return [count, climb].filter((part) => part !== '').join(', ');
}

/** A line of the table: a diver with their figures, or the one that is not there yet. */
type Line = DiverFigures | null;

const NAMES: Readonly<Record<DiverField, Said>> = {
  name: said`name`,
  certification: said`certification`,
  rate: said`RMV`,
  cylinder: said`cylinder`,
  cylinderNo: said`cylinder number`,
  fill: said`fill`,
  reserve: said`reserve`,
  depth: said`depth limit`,
  ceiling: said`richest oxygen`,
  po2: said`PO2 limits`,
  gradient: said`gradient factors`,
  group: said`group`,
};

const HEADS: Readonly<Record<DiverField, string>> = {
  name: 'Name',
  certification: 'Certification',
  rate: 'RMV',
  cylinder: 'Cylinder',
  cylinderNo: 'No.',
  fill: 'Fill',
  reserve: 'Reserve',
  depth: 'Depth',
  ceiling: 'O₂ to',
  po2: 'PO₂',
  gradient: 'GF',
  group: 'Group',
};

function signOf(field: DiverField, units: Units): string {
  switch (field) {
    case 'rate':
      return unitOf('gas-rate', units).sign;
    case 'fill':
    case 'reserve':
      return unitOf('pressure', units).sign;
    case 'depth':
      return unitOf('depth', units).sign;
    case 'ceiling':
      return '%';
    case 'po2':
      return 'bar';
    case 'gradient':
      return 'low/high';
    case 'name':
    case 'certification':
    case 'cylinder':
    case 'cylinderNo':
    case 'group':
      return '';
  }
}

const TEXTS: readonly DiverField[] = ['name', 'certification', 'cylinder', 'group'];

/** A column that is worked out, not typed. */
const shown = (
  id: string,
  name: Said,
  head: string,
  show: (line: DiverFigures) => ReactNode,
): GridColumn<Line> => ({
  id,
  name,
  head,
  text: () => '',
  show: (line) => (line === null ? null : show(line)),
});

function columnsOf(units: Units, groups: readonly string[]): readonly GridColumn<Line>[] {
  const typed = DIVER_FIELDS.map((field): GridColumn<Line> => {
    const sign = signOf(field, units);
    return {
      id: field,
      name: NAMES[field],
      head: (
        <>
          {HEADS[field]} {sign === '' ? null : <small>{sign}</small>}
        </>
      ),
      text: (line) => (line === null ? '' : cellText(line.diver, field, units)),
      ...(field === 'name'
        ? {
            show: (line: Line) =>
              line === null ? (
                <em className={`soft ${styles.fresh}`}>New: type or paste names</em>
              ) : (
                <span className={styles.name} title={line.diver.name}>
                  {line.diver.name}
                </span>
              ),
          }
        : {}),
      canEdit: () => true,
      isFigure: !TEXTS.includes(field),
      ...(field === 'cylinder' ? { options: USUAL_CYLINDERS[units] } : {}),
      ...(field === 'group' ? { options: groups } : {}),
    };
  });
  return [
    ...typed,
    shown('tightest', said`tightest dive`, 'Tightest dive', (line) => <Tightest figures={line} />),
    shown('fly', said`no flying before`, 'No flying before', (line) => <FlyAfter figures={line} />),
    shown(
      'earlier',
      said`dives before the trip`,
      'Earlier',
      ({ diver }) => earlierText(diver) || <span className="soft">none</span>,
    ),
  ];
}

function keyOf(line: Line): string {
  return line?.diver.id ?? 'new';
}

function nameOf(line: Line): Said {
  return line === null ? said`new divers` : said`${line.diver.name}`;
}

/** Takes what was typed or pasted: new names first, then each cell by itself. */
function put(edits: readonly CellEdit[], lines: readonly Line[], units: Units): PutResult {
  const { party } = desk.getState().trip;
  const rowsAdded = [...new Set(edits.map(({ row }) => row).filter((row) => !lines[row]))].toSorted(
    (a, b) => a - b,
  );
  const names = rowsAdded.map((row) => {
    const text = edits.find((edit) => edit.row === row && DIVER_FIELDS[edit.column] === 'name')?.text ?? '';
    const typed = namesIn(text);
    return typed.length > 0 ? typed : [`Diver ${party.length + 1 + rowsAdded.indexOf(row)}`];
  });
  const ids = newDiverIds(names.flat().length);
  const added = names.flat().map((name, at) => ({ id: ids[at]!, name }));
  /** The first of those that a new row makes has the row's other cells. */
  const firstOf = new Map(rowsAdded.map((row, at) => [row, ids[names.slice(0, at).flat().length]!]));
  const read = edits
    .filter(({ row, column }) => lines[row] || DIVER_FIELDS[column] !== 'name')
    .map((edit) => {
      const id = lines[edit.row]?.diver.id ?? firstOf.get(edit.row)!;
      const diver = lines[edit.row]?.diver ?? newDiver(id, '', units);
      return {
        edit,
        id,
        change: readDiverCell(edit.text, DIVER_FIELDS[edit.column]!, diver, { units, party }),
      };
    });
  const taken = read.filter(
    (each): each is typeof each & { change: DiverChange } => typeof each.change === 'function',
  );
  const [only] = taken;
  const label =
    added.length === 1
      ? `New diver ${added[0]!.name}`
      : added.length > 1
        ? `${countText(added.length)} new divers`
        : only && taken.length === 1
          ? `${lowerWords(NAMES[DIVER_FIELDS[only.edit.column]!])} of ${party.find(({ id }) => id === only.id)?.name ?? ''}`
          : `${countText(taken.length)} cells of the party`;
  const told = putDivers(
    added,
    taken.map(({ id, change }) => ({ id, change })),
    capital(label),
  );
  const nameColumn = DIVER_FIELDS.indexOf('name');
  return {
    refused: [
      ...names.flatMap((of, at) => {
        const from = names.slice(0, at).flat().length;
        const why = told.added.slice(from, from + of.length).find((each) => each !== null);
        return why ? [{ row: rowsAdded[at]!, column: nameColumn, why }] : [];
      }),
      ...read.flatMap(({ edit, change }) =>
        typeof change === 'function' ? [] : [{ row: edit.row, column: edit.column, why: change }],
      ),
      ...taken.flatMap(({ edit }, at) => {
        const why = told.edits[at];
        return why ? [{ row: edit.row, column: edit.column, why }] : [];
      }),
    ],
    added: added.find((_, at) => told.added[at] === null)?.id,
  };
}

/** Every diver on a line, typed into as a spreadsheet is: gear, limits, past, and how tight it gets. */
export function DiverTable(props: {
  readonly figures: readonly DiverFigures[];
  readonly shownId: string | null;
}): ReactNode {
  const { figures, shownId } = props;
  const units = useDesk(({ settings }) => settings.units);
  const groups = [...new Set(figures.flatMap(({ diver }) => diver.group?.name ?? []))].join('\n');
  const columns = useMemo(() => columnsOf(units, groups === '' ? [] : groups.split('\n')), [units, groups]);
  const lines = useMemo((): readonly Line[] => [...figures, null], [figures]);
  const [at, setAt] = useState<{ readonly id: string; readonly field: DiverField } | null>(null);
  const rowHead = useCallback(
    (line: Line): ReactNode =>
      line === null ? null : (
        <button
          type="button"
          className={ask.ask}
          aria-label={line.diver.name}
          title={`Card of ${line.diver.name}`}
          aria-pressed={line.diver.id === shownId}
          onClick={() => choosePartyView({ diverId: line.diver.id })}
        >
          {/* The number is drawn by the style: read out, the button is called by the diver. */}
          <span className={styles.number} />
        </button>
      ),
    [shownId],
  );
  const model = figures.find(({ diver }) => diver.id === at?.id)?.diver;
  const same = model && at && at.field !== 'name' ? cellText(model, at.field, units) : null;
  const makeSame = (): void => {
    const column = DIVER_FIELDS.indexOf(at!.field);
    const edits = figures.flatMap(({ diver }, row) =>
      cellText(diver, at!.field, units) === same ? [] : [{ row, column, text: same! }],
    );
    const [refused] = put(edits, lines, units).refused;
    if (refused) say({ tone: 'refused', lines: [{ what: fileWords(refused.why), where: '', mend: '' }] });
  };
  return (
    <div className={styles.divers}>
      <Grid
        label="The divers of the trip"
        kind="diver"
        columns={columns}
        rows={lines}
        keyOf={keyOf}
        nameOf={nameOf}
        put={(edits) => put(edits, lines, units)}
        rowHead={rowHead}
        corner={<span className="unseen">Card</span>}
        rowClass={(line) => (line !== null && line.diver.id === shownId ? styles.shown : undefined)}
        grows
        onMove={(line, { id }) => {
          if (line !== null) choosePartyView({ diverId: line.diver.id });
          const field = DIVER_FIELDS.find((each) => each === id);
          setAt(line !== null && field !== undefined ? { id: line.diver.id, field } : null);
        }}
      />
      <p className={styles.same}>
        <button type="button" className="button" disabled={same === null} onClick={makeSame}>
          {same === null || at === null
            ? 'Same for all'
            : `Same for all: ${lowerWords(NAMES[at.field])} ${same === '' ? 'none' : same}`}
        </button>{' '}
        <span className="soft">
          A cylinder is typed as it is called: 12 L, 2x12, 80 cu ft at 3000 psi. A group that enters later:
          Second boat +10.
        </span>
      </p>
    </div>
  );
}

function lowerWords(words: Said): string {
  return fileWords(words);
}

function FlyAfter({ figures }: { readonly figures: DiverFigures }): ReactNode {
  const clock = useDesk(({ settings }) => settings.clock);
  const { flyAfterMin, isLastToFly } = figures;
  return (
    <span className={isLastToFly ? 'figure' : undefined}>
      {momentText(flyAfterMin, clock)}
      {isLastToFly ? <span className="soft"> last</span> : null}
    </span>
  );
}

function Tightest({ figures }: { readonly figures: DiverFigures }): ReactNode {
  const trip = useDesk((state) => state.trip);
  const roomMinOf = useDesk(selectRoomMin);
  const limitOf = useDesk(selectRoomLimit);
  const { tightest: entry, alike, isTightestOfParty, dives } = figures;
  if (entry === null) return <>{dives === 0 ? 'no dive' : 'no limit'}</>;
  const roomMin = roomMinOf(entry);
  return (
    <span className={isCare(roomMin) ? `care ${styles.care}` : undefined}>
      <button type="button" className={ask.ask} onClick={() => goToDives([entry.dive.id])}>
        {isTightestOfParty ? <span aria-hidden="true">▸ </span> : null}
        <span className="figure">{roomWords(entry, roomMin, limitOf(entry))}</span>, dive{' '}
        {diveNumber(trip, entry.dive.id)}, {entryDate(entry)}
        {alike > 0 ? (
          <>
            <span aria-hidden="true" title={`As tight on ${countText(alike)} more`}>
              {' '}
              +{alike}
            </span>
            <span className="unseen"> and {countText(alike)} more</span>
          </>
        ) : null}
        {isTightestOfParty ? <span className="unseen">, tightest of the party</span> : null}
      </button>
    </span>
  );
}
