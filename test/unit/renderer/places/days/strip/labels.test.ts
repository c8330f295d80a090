import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { diveViews, type DiveView } from '../../../../../../renderer/places/days/strip/dive-view';
import { depthScale } from '../../../../../../renderer/places/days/strip/depth-scale';
import { hourBoxes, hourMarks } from '../../../../../../renderer/places/days/strip/hours';
import { labelledDives } from '../../../../../../renderer/places/days/strip/marks';
import { stripForm } from '../../../../../../renderer/places/days/strip/strip-form';
import { labelRoomPx } from '../../../../../../renderer/places/days/strip/strip-layout';
import { placeOf, spanOf, timeScale } from '../../../../../../renderer/places/days/strip/time-scale';
import {
  selectEntriesByDive,
  selectRoomLimit,
  selectRoomMin,
} from '../../../../../../renderer/store/selectors';
import { selectMarked } from '../../../../../../renderer/places/days/strip/marked';
import { desk, freshDesk } from '../../../../../../renderer/store/store';
import { demoTrip } from '../../../../../../core/document/demo-trip';
import type { Trip } from '../../../../../../core/document/types';
import { bigTrip } from '../../../../../bench/big-trip';
import type { Box } from '../../../../../../renderer/places/days/strip/boxes';
import {
  labelBoxes,
  linesOf,
  placeLabels,
  type LabelledDive,
  type PlacedLabel,
} from '../../../../../../renderer/places/days/strip/labels';
import { rowWidth, type Row } from '../../../../../../renderer/places/days/strip/label-rows';

const figure = (depth: string, time = '45'): Row => [
  { style: 'depth', text: depth },
  { style: 'note', text: `/${time}` },
];

function dive(lineX: number, over: Partial<LabelledDive> = {}): LabelledDive {
  const weightY = over.weightY ?? 100;
  return {
    lineX,
    weightY,
    bar: [
      { x: lineX, y: weightY },
      { x: lineX + 30, y: weightY },
    ],
    filled: null,
    dayFromX: 0,
    dayUntilX: 5_000,
    variants: [
      [[...figure('18'), { style: 'mix', text: 'EAN28, 3 of 4' }], [{ style: 'italic', text: '4 min room' }]],
      [figure('18')],
      [[{ style: 'depth', text: '18' }]],
    ],
    rank: 0,
    hasRing: false,
    fromY: weightY,
    ...over,
  };
}

const page = (widthPx: number, textScale = 1) => ({ widthPx, heightPx: 260, textScale });

/** Where the labels stand, one a dive. */
const labelsOn = (...of: Parameters<typeof placeLabels>) => placeLabels(...of).labels;

/** Edges that touch are told apart by rounding alone. */
const HAIR_PX = 1e-9;

const isHit = (a: Box, b: Box): boolean =>
  Math.min(a.right, b.right) - Math.max(a.left, b.left) > HAIR_PX &&
  Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > HAIR_PX;

/** Everything that a label covers and must not: other labels, lines, weights, bars, other words, the page's edge. */
function faultsOf(
  dives: readonly LabelledDive[],
  labels: readonly (PlacedLabel | null)[],
  { widthPx, heightPx, textScale, written = [] }: Parameters<typeof placeLabels>[1],
): readonly string[] {
  const boxes = labels.map((label) => (label === null ? [] : labelBoxes(label, textScale)));
  return boxes.flatMap((own, i) =>
    own.flatMap((box) => [
      ...boxes.flatMap((others, k) =>
        k > i && others.some((other) => isHit(box, other)) ? [`words of ${k}`] : [],
      ),
      ...dives.flatMap((each, k) =>
        linesOf(each).some((line) => isHit(box, line)) ? [`lines of ${k}`] : [],
      ),
      ...written.flatMap((other) => (isHit(box, other) ? ['what was written'] : [])),
      ...(box.left < 0 || box.right > widthPx || box.bottom > heightPx || box.top < 0 ? ['the edge'] : []),
    ]),
  );
}

const saidOf = (label: PlacedLabel | null): string =>
  label === null ? '' : label.rows.map(({ pieces }) => pieces.map(({ text }) => text).join(' ')).join('; ');

const READER = { units: 'metric', clock: '24h' } as const;

function viewsOf(trip: Trip): readonly DiveView[] {
  desk.setState(freshDesk(trip));
  const state = desk.getState();
  return diveViews({
    trip,
    entriesByDive: selectEntriesByDive(state),
    diverId: null,
    marked: selectMarked(state),
    roomLimitOf: selectRoomLimit(state),
    roomMinOf: selectRoomMin(state),
    reader: READER,
  });
}

/** The dives of a trip as the strip has them at a width, with their labels. */
function laidOut(trip: Trip, widthPx: number, heightPx: number, textScale = 1) {
  const views = viewsOf(trip);
  const wet = views.map(({ startMin, surfacesMin }) => ({ startMin, endMin: surfacesMin }));
  const time = timeScale(spanOf(wet, [], 0), wet, widthPx);
  const form = stripForm(time.dayWidthPx, textScale);
  const depth = depthScale(
    Math.max(...views.map(({ depthM }) => depthM)),
    heightPx,
    'metric',
    labelRoomPx(form) * textScale,
  );
  const hours = hourMarks(
    time,
    textScale,
    '24h',
    views.map((view) => placeOf(time, view.startMin)),
  );
  const written = hourBoxes(hours, textScale);
  const dives = labelledDives({ views, time, depth, heightPx, textScale, written });
  const on = { widthPx, heightPx, textScale, written };
  return { views, form, dives, on, labels: labelsOn(dives, on) };
}

describe('placeLabels', () => {
  it('says everything under the weight where there is room', () => {
    const [label] = labelsOn([dive(100)], page(600));
    expect(saidOf(label!)).toBe('18 /45 EAN28, 3 of 4; 4 min room');
    expect(label!.leader).toBeNull();
    expect(labelBoxes(label!, 1)[0]!.top).toBeLessThan(100 + 12);
  });

  it('says less before it moves far away', () => {
    const near = [dive(100), dive(160, { weightY: 130, fromY: 130 })];
    const [first] = labelsOn(near, page(600));
    expect(saidOf(first!)).toBe('18 /45');
    expect(labelBoxes(first!, 1)[0]!.top).toBeLessThan(112);
  });

  it('serves the more urgent first', () => {
    const both = (rank: number) => [dive(100), dive(108, { rank })];
    const [, second] = labelsOn(both(8), page(170));
    expect(saidOf(second!)).not.toBe('');
    expect(saidOf(labelsOn(both(8), page(170))[0]!).length).toBeLessThanOrEqual(saidOf(second!).length);
  });

  it('leads from the weight to words that stand a little way off', () => {
    const only = { variants: [[figure('18')]] };
    const crowded = [dive(4, only), dive(30, { weightY: 118, fromY: 118, variants: [] })];
    const [first] = labelsOn(crowded, page(600));
    expect(first!.leader).not.toBeNull();
    expect(first!.leader![0].x).toBe(4);
    // The leader ends at the words, and passes over none.
    const [box] = labelBoxes(first!, 1);
    expect(first!.leader![1].x).toBeGreaterThanOrEqual(box!.left);
    expect(first!.leader![1].x).toBeLessThanOrEqual(box!.right);
  });

  it('stays within its day where it can', () => {
    const wide = dive(100, {
      dayUntilX: 150,
      variants: [[figure('18'), [{ style: 'italic', text: '4 min room' }]]],
    });
    const [label] = labelsOn([wide], page(600));
    expect(labelBoxes(label!, 1).every((box) => box.right <= 150)).toBe(true);
  });

  it('leaves out what has no place rather than write it over something', () => {
    const walls = Array.from({ length: 30 }, (_, i) => dive(10 + i * 6, { weightY: 258, fromY: 258 }));
    const labels = labelsOn(walls, page(190));
    expect(labels.every((label) => label === null)).toBe(true);
  });

  it('tells a dive that has no words in what place the others leave, and moves none of them', () => {
    const said: LabelledDive['variants'] = [[figure('18')], [[{ style: 'depth', text: '18' }]]];
    const dives = [
      dive(60),
      dive(110, { variants: [], weightY: 60 }),
      dive(160),
      dive(166, { variants: [] }),
    ];
    const on = page(400);
    const { labels, besides } = placeLabels(dives, on);
    const before = structuredClone(labels);
    const [second, fourth] = besides([
      { at: 1, variants: said },
      { at: 3, variants: said },
    ]);
    expect(saidOf(second!)).toContain('18');
    expect(labels).toEqual(before);
    expect(faultsOf(dives, [labels[0]!, second!, labels[2]!, fourth!], on)).toEqual([]);
    // Asked again, it is told the same: what was asked before is not there.
    expect(besides([{ at: 1, variants: said }])).toEqual([second]);
  });

  it('says nothing where nothing is to be said', () => {
    expect(labelsOn([dive(100, { variants: [] })], page(600))).toEqual([null]);
  });

  it('covers no other words, no line, weight or bar, wherever dives lie', () => {
    const depths = fc.integer({ min: 20, max: 230 });
    const arbitrary = fc.array(
      fc.record({
        gap: fc.integer({ min: 3, max: 90 }),
        weightY: depths,
        bar: fc.integer({ min: 1, max: 60 }),
      }),
      { minLength: 1, maxLength: 25 },
    );
    fc.assert(
      fc.property(arbitrary, fc.constantFrom(1, 1.125, 1.5, 2), (drawn, textScale) => {
        let x = 0;
        const dives = drawn.map(({ gap, weightY, bar }, i) => {
          x += gap;
          const ends = { x: x + bar, y: weightY };
          return dive(x, {
            weightY,
            fromY: weightY,
            bar: [{ x, y: weightY }, ends],
            rank: i % 3,
            hasRing: i % 5 === 0,
          });
        });
        const on = page(x + 60, textScale);
        expect(faultsOf(dives, labelsOn(dives, on), on)).toEqual([]);
      }),
      { numRuns: 150 },
    );
  });
});

describe('the labels of a trip', () => {
  it('cover nothing, over random trips, widths and sizes of text', () => {
    const dives = fc.array(
      fc.record({
        depthM: fc.integer({ min: 6, max: 38 }),
        bottomMin: fc.integer({ min: 12, max: 60 }),
        part: fc.boolean(),
        mix: fc.constantFrom('auto', 'air'),
      }),
      { minLength: 4, maxLength: 22 },
    );
    const demo = demoTrip();
    const air = demo.mixes.find(({ o2 }) => o2 === 0.21)!.id;
    fc.assert(
      fc.property(
        dives,
        fc.constantFrom(820, 1_387, 2_400, 6_000),
        fc.constantFrom(1, 1.125, 1.5),
        (drawn, widthPx, textScale) => {
          const trip: Trip = {
            ...demo,
            dives: demo.dives.slice(0, drawn.length).map(({ legs: _legs, divers: _divers, ...each }, i) => ({
              ...each,
              depthM: drawn[i]!.depthM,
              bottomMin: drawn[i]!.bottomMin,
              mix: drawn[i]!.mix === 'air' ? air : 'auto',
              ...(drawn[i]!.part ? { divers: demo.party.slice(0, 2).map(({ id }) => id) } : {}),
            })),
          };
          const { dives: placed, labels, on } = laidOut(trip, widthPx, 280, textScale);
          expect(faultsOf(placed, labels, on)).toEqual([]);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('are one a day where a fortnight has no room for more, under its weights, with the site', () => {
    const { views, form, labels, dives, on } = laidOut(bigTrip(60, 4), 860, 290);
    expect(form).toBe('least');
    expect(faultsOf(dives, labels, on)).toEqual([]);
    const days = new Set(views.map(({ startMin }) => Math.floor(startMin / 1440)));
    const told = labels.flatMap((label, i) => (label === null ? [] : Math.floor(views[i]!.startMin / 1440)));
    expect(new Set(told).size).toBe(told.length);
    expect(told.length).toBe(days.size);
    expect(labels.filter((label) => label !== null).every((label) => saidOf(label).includes('Site'))).toBe(
      true,
    );
    labels.forEach((label, i) => {
      // Words under all the weights of a day are led to, but from the lowest of them.
      if (label && dives[i]!.fromY - dives[i]!.weightY > 13) expect(label.leader).not.toBeNull();
    });
  });

  it('say depth and time of every dive of a week at 1280 px, but where weights hang too close', () => {
    const { labels, views } = laidOut(demoTrip(), 838, 254);
    const said = labels.map(saidOf);
    expect(said.filter((text) => text !== '').length).toBe(views.length);
    expect(said.filter((text) => text.includes('/')).length).toBeGreaterThanOrEqual(views.length - 4);
    expect(said.join(' ')).toContain('4 min room');
  });

  it('tell site, depth, times and room where a day fills the page', () => {
    const { labels, form } = laidOut(demoTrip(), 840 * 6, 300);
    expect(form).toBe('day');
    const said = labels.map(saidOf);
    expect(said[12]).toMatch(/^Kettle Pinnacle; 24 m 29 min; 11:35 to \d\d:\d\d; room 4 min, the tightest$/);
  });
});

describe('rowWidth', () => {
  it('grows with the text, and knows that the time follows the depth at once', () => {
    const row = figure('24', '29');
    expect(rowWidth(row, 2)).toBeGreaterThan(1.9 * rowWidth(row, 1));
    const apart: Row = [row[0]!, { style: 'note', text: '29' }];
    expect(rowWidth(row, 1)).toBeLessThan(rowWidth(apart, 1) + 6);
  });
});
