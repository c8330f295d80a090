/** Fills of a trip as a person reads them in a terminal: by day, blended step by step, with the oxygen to bring. */
import type { BlendStep, FillsMade } from '../../core/mixes/blending';
import {
  blendedSaid,
  BLENDING_CAUTION,
  fillNotesSaid,
  fillsAskedSaid,
  gaugeSaid,
  gasOfFillSaid,
  loopFillsSaid,
  oxygenSaid,
} from '../../core/mixes/blending-words';
import type { FillLine } from '../../core/mixes/fills';
import { mixO2 } from '../../core/ledger/mix-choice';
import { unitOf } from '../../core/words/quantity';
import { dayOf, figure, said, type Said } from '../../core/words/said';
import { HEADS, mixSaid, moneySaid } from '../../core/words/terms';
import { cellsOf, values, type Page } from './mixes-page';
import { table, wrapped } from './text-table';

/** Figures of the fills of a mix on a day, or of all. */
function fillCells(line: Omit<FillLine, 'date' | 'mix'>, page: Page): readonly string[] {
  return [
    String(line.fills),
    ...[line.litres, line.oxygenL, line.airL].map((each) =>
      each === null ? '–' : values(figure('gasUsed', each), page),
    ),
    ...cellsOf([line.cost === null ? said`–` : moneySaid(line.cost, page.currency)], page),
    fillNotesSaid(line)
      .map((note) => page.words(note))
      .join(', '),
  ];
}

function fillRow(line: FillLine, page: Page): readonly string[] {
  return [...cellsOf([dayOf(line.date), gasOfFillSaid(line)], page), ...fillCells(line, page)];
}

const FILL_HEADS: readonly Said[] = [
  said`day`,
  HEADS.mix,
  said`fills`,
  said`gas`,
  said`oxygen`,
  said`air`,
  HEADS.cost,
  said``,
];

const STEP_HEADS: readonly Said[] = [
  HEADS.mix,
  said`cylinder`,
  said`fills`,
  said`from`,
  said`by ideal gas`,
  said`by real gas`,
  said`then air to`,
];

function stepsText(steps: readonly BlendStep[], page: Page): readonly string[] {
  if (steps.length === 0) return [];
  return [
    '',
    page.words(said`Blending step by step, once cooled to 20 °C after each:`),
    ...table(
      [
        cellsOf(STEP_HEADS, page),
        ...steps.map((step) =>
          cellsOf(
            [
              mixSaid(mixO2(step.mix)),
              blendedSaid(step),
              step.fills,
              said`${figure('pressureTyped', step.startBar)}`,
              gaugeSaid(step.by.ideal),
              gaugeSaid(step.by.real),
              said`${figure('pressureTyped', step.fillBar)}`,
            ],
            page,
          ),
        ),
      ],
      2,
    ),
  ];
}

/** @param whose what is filled, "Fills of the trip" */
export function fillsText(told: FillsMade, whose: Said, page: Page): string {
  const { request, plan, steps, bottle, bottles } = told;
  const { units } = page.reader;
  const systems = units === 'both' ? (['metric', 'imperial'] as const) : [units];
  const signs = systems.map((system) => unitOf('volume', system).sign).join('/');
  const intro = said`${whose}, ${fillsAskedSaid(request, signs)}`;
  const oxygen = oxygenSaid(plan, bottles, request.method, bottle);
  return [
    wrapped(page.words(intro), 0, page.columns),
    ...table(
      [
        cellsOf(FILL_HEADS, page),
        ...plan.lines.map((line) => fillRow(line, page)),
        [page.words(said`in all`), '', ...fillCells(plan.total, page)],
      ],
      2,
    ),
    ...stepsText(steps, page),
    '',
    wrapped(page.words(said`${oxygen.lead}${oxygen.rest}`), 2, page.columns),
    ...(plan.loopOxygenL > 0 ? [wrapped(page.words(loopFillsSaid(plan)), 2, page.columns)] : []),
    wrapped(page.words(BLENDING_CAUTION), 2, page.columns),
  ].join('\n');
}
