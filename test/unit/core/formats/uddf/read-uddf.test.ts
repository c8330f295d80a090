import { describe, expect, it } from 'vitest';
import { fileTime, readUddf } from '../../../../../core/formats/uddf/read-uddf';

interface Parts {
  readonly mix?: string;
  readonly before?: string;
  readonly tank?: string;
  readonly samples?: string;
  readonly open?: string;
}

const POINTS = [
  [0, 0],
  [18, 60],
  [18, 1500],
  [0, 1620],
];

function points(list: readonly (readonly (number | string)[])[], first = '<switchmix ref="m"/>'): string {
  return list
    .map(
      ([m, s], at) =>
        `<waypoint><depth>${m}</depth><divetime>${s}</divetime>${at === 0 ? first : ''}</waypoint>`,
    )
    .join('\n');
}

function file({ mix, before, tank, samples, open }: Parts = {}): string {
  return `${open ?? '<uddf xmlns="http://www.streit.cc/uddf/3.2/" version="3.2.2">'}
<diver><owner id="o"><personal><firstname>Guest</firstname><lastname>1</lastname></personal></owner></diver>
<divesite><site id="s"><name>Pinnacle</name></site></divesite>
<gasdefinitions><mix id="m"><name>EAN32</name>${mix ?? '<o2>0.32</o2><n2>0.68</n2>'}</mix></gasdefinitions>
<profiledata><repetitiongroup id="r"><dive id="d">
<informationbeforedive><link ref="s"/>${before ?? '<datetime>2027-03-05T09:30:45</datetime>'}</informationbeforedive>
${tank ?? ''}<samples>${samples ?? points(POINTS)}</samples>
<informationafterdive><greatestdepth>18</greatestdepth><diveduration>1620</diveduration></informationafterdive>
</dive></repetitiongroup></profiledata></uddf>`;
}

function trouble(text: string) {
  const { dives, troubles } = readUddf(text, 9);
  expect(dives).toEqual([]);
  expect(troubles).toHaveLength(1);
  expect(troubles[0]!.mend).not.toBe('');
  return `${troubles[0]!.where}: ${troubles[0]!.what}`;
}

function dive(text: string) {
  const { dives, troubles } = readUddf(text, 9);
  expect(troubles).toEqual([]);
  return dives[0]!;
}

describe('readUddf', () => {
  it('reads a dive with diver, site, start, samples, mix and pressure', () => {
    const tank =
      '<tankdata><link ref="m"/><tankpressurebegin>2e7</tankpressurebegin><tankpressureend>7500000</tankpressureend></tankdata>';
    expect(dive(file({ tank }))).toEqual({
      diver: 'Guest 1',
      site: 'Pinnacle',
      startsAt: '2027-03-05T09:30',
      zone: '',
      samples: [
        [0, 0],
        [1, 18],
        [25, 18],
        [27, 0],
      ],
      depthM: 18,
      bottomMin: 25,
      o2: 0.32,
      endBar: 75,
      where: 'dive 1',
      remarks: [],
    });
  });

  it('reads old files without a namespace, with a prefix, and with a document type of nothing', () => {
    for (const open of ['<uddf version="3.0.0">', '<!DOCTYPE uddf SYSTEM "uddf.dtd"><uddf version="3.0.0">'])
      expect(dive(file({ open })).depthM).toBe(18);
    const prefixed = file()
      .replaceAll(/<(\/?)(?=[a-z])/g, '<$1u:')
      .replace('xmlns=', 'xmlns:u=');
    expect(dive(prefixed).samples).toHaveLength(4);
  });

  it.each([
    ['2027-03-05T09:30:00', '2027-03-05T09:30', ''],
    ['2027-03-05 09:30', '2027-03-05T09:30', ''],
    ['20270305T093059.5Z', '2027-03-05T09:30', 'Z'],
    ['2027-03-05T09:30:00+02:00', '2027-03-05T09:30', '+02:00'],
  ])('takes the moment %s as what it says', (text, startsAt, zone) => {
    expect(fileTime(text)).toEqual({ startsAt, zone });
  });

  it.each(['2027-03-05', '2027-02-30T09:30:00', 'noon', '', '2027-03-05T24:30:00'])(
    'finds no moment in "%s"',
    (text) => {
      expect(fileTime(text)).toBeNull();
    },
  );

  it.each([
    ['a percentage', { mix: '<o2>32</o2>' }, 'dive 1, line 4: The mix "EAN32" has an oxygen fraction of 32'],
    ['helium', { mix: '<o2>0.18</o2><he>0.45</he>' }, 'more in it than oxygen and nitrogen'],
    ['no oxygen to speak of', { mix: '<o2>0.1</o2>' }, 'Oxygen is 0.1'],
    [
      'samples backwards',
      {
        samples: points([
          [0, 0],
          [18, 60],
          [18, 50],
        ]),
      },
      'dive 1, line 9: The sample at 0.83 min follows one at 1 min',
    ],
    [
      'two samples at once',
      {
        samples: points([
          [0, 0],
          [18, 60],
          [17, 60],
          [0, 90],
        ]),
      },
      'time has to go on',
    ],
    [
      'a depth that is no number',
      {
        samples: points([
          [0, 0],
          ['NaN', 60],
        ]),
      },
      'line 8: The depth of a sample is not a number',
    ],
    [
      'a time that is no number',
      {
        samples: points([
          [0, 0],
          [18, 'INF'],
        ]),
      },
      'The time of a sample is not a number',
    ],
    [
      'a negative time',
      {
        samples: points([
          [0, -5],
          [18, 60],
        ]),
      },
      'not a number of 0 or more',
    ],
    [
      'a depth above the water',
      {
        samples: points([
          [0, 0],
          [-0.6, 60],
          [0, 90],
        ]),
      },
      'above the water',
    ],
    [
      'a depth that nobody dives to',
      {
        samples: points([
          [0, 0],
          [400, 60],
          [0, 900],
        ]),
      },
      'Depth is 400',
    ],
    [
      'a waypoint without depth',
      { samples: '<waypoint><divetime>0</divetime></waypoint><waypoint><divetime>9</divetime></waypoint>' },
      'The depth of a sample is not a number',
    ],
    ['one sample', { samples: points([[0, 0]]) }, 'fewer than two samples'],
    ['no samples', { samples: ' ' }, 'no recorded samples'],
    ['no date', { before: '' }, 'It has no date and time'],
    ['a loop', { samples: points(POINTS, '<divemode type="closedcircuit"/>') }, 'on a loop'],
  ] as const)('refuses %s with where and how to mend it', (_, parts, what) => {
    expect(trouble(file(parts))).toContain(what);
  });

  it.each([
    [
      'an entity of its own',
      '<!DOCTYPE uddf [<!ENTITY a "b">]><uddf>&a;</uddf>',
      'Document types that define anything',
    ],
    ['an entity that nobody defined', '<uddf>&nbsp;</uddf>', 'undefined entity'],
    ['another root', '<gpx/>', 'not UDDF: it begins with <gpx>'],
    ['no dives', '<uddf/>', 'There is no dive'],
    ['text', 'time,depth', 'not well formed'],
    ['depth', `<uddf>${'<a>'.repeat(40)}`, 'nested deeper than 32'],
  ])('refuses a file with %s', (_, text, what) => {
    expect(trouble(text)).toContain(what);
  });

  it('brings up a record that ends under water, and says so', () => {
    const { samples, remarks } = dive(
      file({
        samples: points([
          [0, 0],
          [18, 60],
          [18, 600],
        ]),
      }),
    );
    expect(samples.at(-1)).toEqual([12, 0]);
    expect(remarks).toEqual(['The record ends at 18 m; the way up from there is added at 9 m/min.']);
  });

  it('takes what a sensor tells above the water for the surface, and begins where the first sample does not', () => {
    const { samples, remarks } = dive(
      file({
        samples: points([
          [-0.3, 10],
          [18, 60],
          [0, 600],
        ]),
      }),
    );
    expect(samples.slice(0, 3)).toEqual([
      [0, 0],
      [1 / 6, 0],
      [1, 18],
    ]);
    expect(remarks).toEqual(['Depths up to 0.3 m above the water are taken as 0 m.']);
  });

  it('never takes bar for pascal, nor one oxygen for two', () => {
    const tank = '<tankdata><tankpressureend>75</tankpressureend></tankdata>';
    expect(dive(file({ tank }))).toMatchObject({
      endBar: null,
      remarks: [expect.stringContaining('looks like bar')],
    });
    const switched = dive(
      file({
        samples: points(POINTS, '').replace(
          '<divetime>1500</divetime>',
          '<divetime>1500</divetime><switchmix ref="m"/>',
        ),
      }),
    );
    expect(switched).toMatchObject({ o2: null, remarks: [expect.stringContaining('more than one mix')] });
  });

  it('does not take a planned profile for one that was dived', () => {
    const planned = `<datetime>2027-03-05T09:30:00</datetime><plannedprofile>${points(POINTS)}</plannedprofile>`;
    expect(trouble(file({ before: planned, samples: '' }))).toContain('a planned profile is none');
    expect(dive(file({ before: planned })).samples).toHaveLength(4);
  });

  it('keeps the dives that stand when others do not', () => {
    const both = file().replace(
      '</repetitiongroup>',
      '<dive id="e"><informationbeforedive/></dive></repetitiongroup>',
    );
    const { dives, troubles } = readUddf(both, 9);
    expect(dives).toHaveLength(1);
    expect(troubles.map(({ where }) => where)).toEqual(['dive 2, line 12']);
  });
});
