import { describe, expect, it } from 'vitest';
import { readRecorded } from '../../../../../core/formats/recorded/read-recorded';

const COMMA = `start,time (min),depth (m)
2027-03-05 09:30,0,0
,1.5,18
,25,18
,27,0
`;

function dives(text: string) {
  const { dives: read, troubles } = readRecorded(text, 9);
  expect(troubles).toEqual([]);
  return read;
}

function trouble(text: string): string {
  const { dives: read, troubles } = readRecorded(text, 9);
  expect(read).toEqual([]);
  expect(troubles).toHaveLength(1);
  expect(troubles[0]!.mend).not.toBe('');
  return `${troubles[0]!.where}: ${troubles[0]!.what}`;
}

const SAMPLES = [
  [0, 0],
  [1.5, 18],
  [25, 18],
  [27, 0],
];

describe('readRecorded of a table', () => {
  it.each([
    ['commas', COMMA],
    ['semicolons and decimal commas', COMMA.replaceAll(',', ';').replace('1.5', '1,5')],
    ['tabs', COMMA.replaceAll(',', '\t')],
    ['a line that says what parts the cells', `sep=;\r\n${COMMA.replaceAll(',', ';').replace('1.5', '1,5')}`],
    ['a byte order mark and other line ends', `\uFEFF${COMMA.replaceAll('\n', '\r\n')}`],
    [
      'headings in another order',
      'depth (m),start,time (min)\n0,2027-03-05 09:30,0\n18,,1.5\n18,,25\n0,,27\n',
    ],
    ['seconds', 'start,time (s),depth\n2027-03-05 09:30,0,0\n,90,18\n,1500,18\n,1620,0\n'],
    ['a clock', 'Start,Time,Depth\n2027-03-05T09:30:20,0:00,0\n,1:30,18\n,25:00,18\n,0:27:00,0\n'],
    ['quotation marks and blanks', COMMA.replace('start', '" start "').replace('1.5', '"1.5"')],
    ['a column that says nothing here', COMMA.replaceAll('\n', ',x\n')],
  ])('takes %s', (_, text) => {
    expect(dives(text)).toMatchObject([
      { startsAt: '2027-03-05T09:30', samples: SAMPLES, depthM: 18, bottomMin: 25 },
    ]);
  });

  it('reads feet, pounds, oxygen, diver and site, and parts dives by number and start', () => {
    const text = `dive;diver;site;start;time;depth (ft);oxygen (%);pressure left (psi)
1;Guest 1;Pinnacle;2027-03-05 09:30;0;0;32;1000
1;;;;1;60;;
1;;;;20;60;;
1;;;;22;0;;
2;Guest 1;Wall;2027-03-05 12:00;0;0;;
2;;;;1;50;;
2;;;;30;50;;
2;;;;32;0;;
`;
    const [first, second] = dives(text);
    expect(first).toMatchObject({ diver: 'Guest 1', site: 'Pinnacle', o2: 0.32 });
    expect(first!.depthM).toBeCloseTo(18.288, 9);
    expect(first!.endBar).toBeCloseTo(68.948, 2);
    expect(second).toMatchObject({ startsAt: '2027-03-05T12:00', site: 'Wall', o2: null, endBar: null });
  });

  it.each([
    ['no headings', '1,2,3\n4,5,6\n', 'line 1: There is no column headed "start" or "time" or "depth"'],
    ['a heading twice', 'start,time,depth,depth (m)\n', 'Two columns are headed "depth"'],
    [
      'a unit that is not known',
      'start,time,depth (fathoms)\n',
      'in a unit that is not known here: m, metres, ft, feet are',
    ],
    ['no rows', 'start,time,depth\n', 'no row under the headings'],
    ['nothing', '', 'There is no column'],
    ['an open quotation mark', 'start,time,depth\n"2027,0,0\n', 'line 2: A quotation mark is opened'],
    ['no start', 'start,time,depth\n,0,0\n,1,18\n', 'dive 1, line 2: It has no start'],
    ['a start that is none', 'start,time,depth\nMonday,0,0\n,1,18\n', '"Monday" is no date and time'],
    [
      'time going back',
      COMMA.replace('25', '1'),
      'dive 1, line 4: The sample at 1 min follows one at 1.5 min',
    ],
    [
      'a depth that is text',
      COMMA.replace('1.5,18', '1.5,deep'),
      'dive 1, line 3: The depth of a sample is not a number',
    ],
    ['NaN', COMMA.replace('1.5,18', '1.5,NaN'), 'not a number'],
    ['a formula', COMMA.replace('1.5,18', '1.5,=9+9'), 'not a number'],
    ['thousands', COMMA.replace('1.5,18', '"1,000.5",18'), 'The time of a sample is not a number'],
  ])('refuses %s with where and how to mend it', (_, text, what) => {
    expect(trouble(text)).toContain(what);
  });

  it('takes no oxygen and no pressure that cannot be, and says so', () => {
    const text = COMMA.replace('(m)', '(m),oxygen,left').replace('0,0\n', '0,0,320,9999\n');
    expect(dives(text)).toMatchObject([
      {
        o2: null,
        endBar: null,
        remarks: [
          '"320" cannot be the oxygen; it is not taken.',
          '"9999" cannot be the pressure left; it is not taken.',
        ],
      },
    ]);
  });
});
