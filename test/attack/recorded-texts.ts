/** Logs of dive computers: UDDF and tables, random ones, and ones made to be slow. */
import fc from 'fast-check';
import { MOST_CHARACTERS, type RecordedReading } from '../../core/formats/recorded/recorded-dive';
import { readRecorded } from '../../core/formats/recorded/read-recorded';
import { samplesTrouble } from '../../core/document/samples';
import type { Attack } from './attack';
import { fuzz } from './fuzz';
import { hostileAttack, type Hostile } from './hostile';

const LONGEST_MS = 100;

/** So long a text is measured by: time grows in step with it, which is what is asked. */
const MEASURED = 500_000;

const OPEN = '<uddf><profiledata><repetitiongroup><dive><samples>';

/** A reading that may be shown, and profiles that a trip would take. */
function judge(reading: RecordedReading): 'read' | 'refused' {
  for (const { what, where, mend } of reading.troubles) {
    if (what === '' || mend === '' || /undefined|NaN/.test(what.replace(/".*"/s, '')))
      throw new Error(`said "${what}"`);
    if (`${what}${where}${mend}`.length > 700) throw new Error('a message without an end');
  }
  for (const { samples, bottomMin, o2, endBar } of reading.dives) {
    if (samplesTrouble(samples) !== null) throw new Error('took a profile that no trip has');
    if (!(bottomMin >= 1) || !(bottomMin <= samples.at(-1)![0])) throw new Error(`bottom time ${bottomMin}`);
    if (o2 !== null && !(o2 >= 0.2 && o2 <= 1)) throw new Error(`oxygen ${o2}`);
    if (endBar !== null && !(endBar >= 0 && endBar <= 350)) throw new Error(`pressure ${endBar}`);
  }
  return reading.dives.length > 0 ? 'read' : 'refused';
}

const answer = (text: string): 'read' | 'refused' => judge(readRecorded(text, 9));

const figure = fc.oneof(
  { weight: 6, arbitrary: fc.integer({ min: 0, max: 60 }).map(String) },
  { weight: 2, arbitrary: fc.double({ min: -2, max: 120, noNaN: true }).map(String) },
  {
    weight: 2,
    arbitrary: fc.constantFrom('NaN', 'INF', '-INF', '', '1e9', '-0', '0x10', '1,5', '12:30', '=1+1', '٣'),
  },
);

const waypoint = fc
  .tuple(
    figure,
    figure,
    fc.constantFrom(
      '',
      '<switchmix ref="m"/>',
      '<divemode type="apnoe"/>',
      '<tankpressure>2e7</tankpressure>',
      '<depth>3</depth>',
    ),
  )
  .map(
    ([depth, time, more]) =>
      `<waypoint><depth>${depth}</depth><divetime>${time}</divetime>${more}</waypoint>`,
  );

const rising = fc
  .array(fc.tuple(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 0, max: 40 })), {
    minLength: 2,
    maxLength: 30,
  })
  .map((steps) => {
    let second = 0;
    return steps
      .map(
        ([by, depth]) => `<waypoint><depth>${depth}</depth><divetime>${(second += by)}</divetime></waypoint>`,
      )
      .join('');
  });

const when = fc.constantFrom(
  '2027-03-05T09:30:00',
  '2027-03-05 09:30',
  '20270305T0930Z',
  '2027-13-05T09:30',
  'noon',
  '',
);

const dive = fc
  .tuple(
    when,
    fc.oneof(
      rising,
      fc.array(waypoint, { maxLength: 6 }).map((points) => points.join('\n')),
    ),
  )
  .map(
    ([moment, samples]) =>
      `<dive id="d"><informationbeforedive><link ref="s"/><datetime>${moment}</datetime></informationbeforedive><tankdata><link ref="m"/><tankpressureend>8e6</tankpressureend></tankdata><samples>${samples}</samples></dive>`,
  );

/** Files that read, some of them with a piece gone wrong, or cut off. */
const uddfs = fc
  .tuple(
    fc.constantFrom(
      '<uddf>',
      '<uddf xmlns="http://www.streit.cc/uddf/3.2/">',
      '<!DOCTYPE uddf><uddf>',
      '<!DOCTYPE uddf [<!ENTITY a "b">]><uddf>',
      '\uFEFF<uddf>',
    ),
    fc.oneof({ weight: 4, arbitrary: fc.constant('0.32') }, { weight: 1, arbitrary: figure }),
    fc.array(dive, { maxLength: 3 }),
    fc.oneof(
      { weight: 8, arbitrary: fc.constant(1) },
      { weight: 1, arbitrary: fc.double({ min: 0, max: 1, noNaN: true }) },
    ),
  )
  .map(([open, o2, dives, part]) => {
    const text = `${open}<gasdefinitions><mix id="m"><name>x</name><o2>${o2}</o2></mix></gasdefinitions><divesite><site id="s"><name>Reef</name></site></divesite><profiledata><repetitiongroup>${dives.join('')}</repetitiongroup></profiledata></uddf>`;
    return text.slice(0, Math.ceil(part * text.length));
  });

const separators = fc.constantFrom(',', ';', '\t');

const cell = fc.oneof(figure, when, fc.constantFrom('"', '""', '"a;b"', "'=1", '\u0000'));

const HEADINGS = [
  'start',
  'time (min)',
  'depth (m)',
  'dive',
  'oxygen (%)',
  'Pressure left [bar]',
  'x',
] as const;

/** A dive as rows under those headings: sound, unless its start or its oxygen is not. */
const soundRows = fc
  .tuple(
    when,
    fc.constantFrom('32', '32,5', '', '320'),
    fc.integer({ min: 1, max: 9 }),
    fc.integer({ min: 2, max: 40 }),
  )
  .map(([start, oxygen, step, depth]) => [
    [start, '0', '0', '1', oxygen, '60', ''],
    ['', String(step), String(depth), '', '', '', 'y'],
    ['', String(step + 20), String(depth), '', '', '', ''],
  ]);

/** Tables that read, some of them with cells gone wrong, and headings in any order. */
const tables = fc
  .tuple(
    separators,
    fc.shuffledSubarray([...HEADINGS.keys()], { minLength: HEADINGS.length }),
    soundRows,
    fc.oneof(
      { weight: 2, arbitrary: fc.constant([]) },
      { weight: 1, arbitrary: fc.array(fc.array(cell, { maxLength: 8 }), { maxLength: 8 }) },
    ),
    fc.constantFrom('', 'sep=;\n', 'sep=,\r\n', '\uFEFF'),
  )
  .map(([separator, order, rows, more, before]) => {
    const inOrder = [HEADINGS, ...rows].map((row) => order.map((at) => row[at]!));
    return before + [...inOrder, ...more].map((cells) => cells.join(separator)).join('\n');
  });

const limits = {
  sizeOf: (text: string) => text.length,
  answer,
  longestMs: (size: number) => LONGEST_MS + size / 1000,
  steepest: 1.6,
  warmUp: [
    `${OPEN}<waypoint><depth>0</depth><divetime>0</divetime></waypoint></samples></dive></repetitiongroup></profiledata></uddf>`,
    'start,time,depth\n2027-03-05 09:30,0,0\n,1,18\n',
  ],
};

export const recordedAttack: Attack = {
  title: 'Random recorded dives (UDDF)',
  whole: 100_000,
  quick: 2000,
  run: (count) => fuzz({ ...limits, inputs: uddfs }, count),
};

export const recordedTableAttack: Attack = {
  title: 'Random recorded dives (tables)',
  whole: 100_000,
  quick: 2000,
  run: (count) => fuzz({ ...limits, inputs: tables }, count),
};

function filled(before: string, again: string, after = ''): Hostile['textOf'] {
  return (length) =>
    before +
    again.repeat(Math.max(0, Math.floor((length - before.length - after.length) / again.length))) +
    after;
}

const HOSTILES: readonly Hostile[] = [
  {
    what: 'waypoints all at once',
    textOf: filled(
      OPEN,
      '<waypoint><depth>9</depth><divetime>0</divetime></waypoint>',
      '</samples></dive></repetitiongroup></profiledata></uddf>',
    ),
  },
  {
    what: 'empty dives',
    textOf: filled(
      '<uddf><profiledata><repetitiongroup>',
      '<dive/>',
      '</repetitiongroup></profiledata></uddf>',
    ),
  },
  {
    what: 'mixes without end',
    textOf: filled('<uddf><gasdefinitions>', '<mix id="m"/>', '</gasdefinitions></uddf>'),
  },
  {
    what: 'a date without end',
    textOf: filled(
      '<uddf><profiledata><repetitiongroup><dive><informationbeforedive><datetime>',
      '2027-03-05T',
      '</datetime></informationbeforedive></dive></repetitiongroup></profiledata></uddf>',
    ),
  },
  {
    what: 'a number without end',
    textOf: filled(
      `${OPEN}<waypoint><depth>`,
      '9',
      '</depth></waypoint></samples></dive></repetitiongroup></profiledata></uddf>',
    ),
  },
  { what: 'references without end', textOf: filled('<uddf>', '&amp;', '</uddf>') },
  { what: 'elements without end', textOf: filled('<uddf>', '<a>') },
  { what: 'attributes without end', textOf: filled('<uddf', ' a="1"') },
  { what: 'a document type without end', textOf: filled('<!DOCTYPE ', 'a') },
  { what: 'rows of one dive', textOf: filled('start,time,depth\n2027-03-05 09:30,0,0\n', ',1,5\n') },
  { what: 'rows of a dive each', textOf: filled('dive,start,time,depth\n', '1,x,1,5\n2,y,1,5\n') },
  { what: 'headings without end', textOf: filled('', 'depth (m),') },
  { what: 'a heading without end', textOf: filled('depth (', 'm (') },
  { what: 'quotation marks', textOf: filled('start,time,depth\n', '"","') },
  { what: 'a cell that is never closed', textOf: filled('start,time,depth\n"', 'a\n') },
  { what: 'times without end', textOf: filled('start,time,depth\n2027-03-05 09:30,', '1:') },
  { what: 'line breaks', textOf: filled('start,time,depth', '\n') },
];

export const hostileRecordedAttack: Attack = hostileAttack(
  'Recorded dives made to be slow',
  HOSTILES,
  (text) => judge(readRecorded(text, 9)),
  Math.min(MEASURED, MOST_CHARACTERS),
);
