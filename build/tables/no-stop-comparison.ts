/**
 * Writes the comparison of the model's no-stop limits with the government table into DEVELOPERS.md, between
 * two marker lines. The model is not tuned to the table: the block only says where the two differ.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { noStopLimitMin } from '../../core/ascent/no-stop-limit';
import { modM } from '../../core/gas';
import { rowFor } from '../../core/tables/procedure';
import { tableDepthFsw } from '../../core/ledger/table-depth';
import { restTensions } from '../../core/tissues/compartments';
import { newDivePlan } from '../../core/ledger/dive-plan';
import { surfaceLimits } from '../../core/ledger/nitrogen-outcome';
import { lastLevelStay } from '../../core/ledger/level-limits';
import { surroundingsOf } from '../../core/profile';

/** The ten usual depths, metres (40 to 130 fsw), and mixes. */
export const DEPTHS_M = [12, 15, 18, 21, 24, 27, 30, 33, 36, 39] as const;
export const OXYGEN = [0.21, 0.32, 0.36] as const;
/** Gradient factors between which a limit counts as alike. */
export const STRICT = 0.7;
export const FULL = 1;

const BEGIN = '<!-- no-stop comparison: written by build/tables/no-stop-comparison.ts -->';
const END = '<!-- end of the no-stop comparison -->';
const GUIDE = new URL('../../DEVELOPERS.md', import.meta.url);

const AROUND = surroundingsOf({
  water: { density: 'gauge', altitudeM: 0 },
  settings: {
    descentMPerMin: 18,
    ascentMPerMin: 9,
  },
});

export interface Cell {
  readonly depthM: number;
  readonly o2: number;
  readonly strictMin: number;
  readonly fullMin: number;
  readonly rowFsw: number;
  /** Infinity where the table has no limit. */
  readonly tableMin: number;
  readonly isBelowMod: boolean;
}

/** The model's no-stop limit of a first dive at sea level, minutes; Infinity where there is none. */
export function modelLimitMin(depthM: number, o2: number, gradientHigh: number): number {
  const plan = newDivePlan({ depthM, bottomMin: 10 }, AROUND);
  const { surfaceBar } = AROUND.column;
  return noStopLimitMin(
    lastLevelStay(plan, restTensions(surfaceBar), 1 - o2, surfaceLimits(AROUND.column, gradientHigh)),
  );
}

/** Where the table's limit lies: below the strict model, within the two, or above the full one. */
export function place({ strictMin, fullMin, tableMin }: Cell): 'stricter' | 'between' | 'longer' {
  if (tableMin < Math.floor(strictMin)) return 'stricter';
  return tableMin > fullMin ? 'longer' : 'between';
}

/** Every cell of the comparison. */
export function comparison(): readonly Cell[] {
  return OXYGEN.flatMap((o2) =>
    DEPTHS_M.map((depthM) => {
      const row = rowFor(tableDepthFsw(depthM, o2, AROUND))!;
      return {
        depthM,
        o2,
        strictMin: modelLimitMin(depthM, o2, STRICT),
        fullMin: modelLimitMin(depthM, o2, FULL),
        rowFsw: row.depthFsw,
        tableMin: row.limitMin ?? Infinity,
        isBelowMod: modM(o2, 1.4, AROUND.column) < depthM,
      };
    }),
  );
}

function minutes(min: number): string {
  return min === Infinity ? 'none' : String(Math.floor(min));
}

function difference(cell: Cell): string {
  switch (place(cell)) {
    case 'stricter':
      return `table ${Math.floor(cell.strictMin) - cell.tableMin} min shorter than the model at ${STRICT}`;
    case 'longer':
      return cell.tableMin === Infinity
        ? 'table without a limit'
        : `table ${cell.tableMin - Math.floor(cell.fullMin)} min longer than the model at ${FULL}`;
    case 'between':
      return '';
  }
}

function line(cell: Cell): string {
  const depth = `${cell.depthM} m${cell.isBelowMod ? ' †' : ''}`;
  const columns = [
    depth,
    minutes(cell.strictMin),
    minutes(cell.fullMin),
    `${minutes(cell.tableMin)} (${cell.rowFsw} fsw)`,
    difference(cell),
  ];
  return `| ${columns.join(' | ')} |`;
}

/** The block as it stands in the guide, markers included. */
export function comparisonBlock(): string {
  const cells = comparison();
  const counts = (['stricter', 'between', 'longer'] as const).map(
    (at) => cells.filter((cell) => place(cell) === at).length,
  );
  const tables = OXYGEN.map((o2) =>
    [
      `**${Math.round(o2 * 100)} % oxygen**`,
      '',
      `| depth | model at ${STRICT} | model at ${FULL} | table | difference |`,
      '| --- | ---: | ---: | ---: | --- |',
      ...cells.filter((cell) => cell.o2 === o2).map(line),
    ].join('\n'),
  );
  return [
    BEGIN,
    '',
    '<!-- prettier-ignore-start -->',
    '',
    'No-stop limits in minutes, rounded down, of a first dive in gauge water at sea level: the model with a high',
    `gradient factor of ${STRICT} and of ${FULL}, and the U.S. Navy Diving Manual Revision 7 (2016), table 9-7, entered at the`,
    'equivalent air depth. The table rounds depth up to its next row; the model is not tuned to it.',
    '',
    tables.join('\n\n'),
    '',
    `Of ${cells.length} cells the table lies within the two in ${counts[1]}, is stricter than both in ${counts[0]} and longer than both in`,
    `${counts[2]}. † below the MOD at a PO2 of 1.4 bar: shown for comparison only.`,
    '',
    '<!-- prettier-ignore-end -->',
    '',
    END,
  ].join('\n');
}

/** The block that stands in the guide now; null without its markers. */
export function standingBlock(guide: string): string | null {
  const from = guide.indexOf(BEGIN);
  const to = guide.indexOf(END);
  return from === -1 || to < from ? null : guide.slice(from, to + END.length);
}

function main(): void {
  const guide = readFileSync(GUIDE, 'utf8');
  const standing = standingBlock(guide);
  if (standing === null) {
    console.error(
      `DEVELOPERS.md: no place for the no-stop comparison\n  Put these two lines where it should stand:\n${BEGIN}\n${END}`,
    );
    process.exitCode = 1;
    return;
  }
  writeFileSync(
    GUIDE,
    guide.replace(standing, () => comparisonBlock()),
  );
  console.log('DEVELOPERS.md: the no-stop comparison is current');
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) main();
