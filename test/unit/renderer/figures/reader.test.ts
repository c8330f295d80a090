import { beforeEach, describe, expect, it } from 'vitest';
import { worded } from '../../../../core/words/reader';
import {
  dayOf,
  moment,
  named,
  said,
  subject,
  timeOfDay,
  typed,
  type Said,
} from '../../../../core/words/said';
import { demoTrip } from '../../../../core/document/demo-trip';
import { NUMBER_RULES, numberTrouble, type NumberField } from '../../../../core/document/fields';
import { setBottomMin, setDepth, setMix, setStart } from '../../../../renderer/actions/dives';
import { setCylinder } from '../../../../renderer/actions/party';
import { mixText } from '../../../../renderer/figures/format';
import { parseFigure, parseMinutes, parseNumber, parseShare } from '../../../../renderer/figures/parse';
import type { Kind, System as Units } from '../../../../core/words/quantity';
import { wordsIn, type Viewer } from '../../../../renderer/figures/reader';
import { desk, freshDesk } from '../../../../renderer/store/store';

const METRIC: Viewer = { units: 'metric', clock: '24h' };
const IMPERIAL: Viewer = { units: 'imperial', clock: '12h', fillBar: 200 };

function refused(field: NumberField, value: number, reader: Viewer): string {
  const { what, mend } = worded(numberTrouble(field, value)!, wordsIn(reader));
  return `${what} ${mend}`;
}

/** How the window's own field of each quantity reads what a person types into it. */
function typedInto(field: NumberField, text: string, { units, fillBar = 0 }: Viewer): number {
  const { kind: ruled } = NUMBER_RULES[field];
  const kinds: Record<string, Kind> = {
    depth: 'depth',
    speed: 'depth',
    pressure: 'pressure',
    'gas-rate': 'gas-rate',
    cylinder: 'volume',
  };
  const kind = kinds[ruled];
  const parsed = kind
    ? parseFigure(text, kind, units)
    : ruled === 'share'
      ? parseShare(text)
      : ruled === 'minutes'
        ? parseMinutes(text)
        : parseNumber(text);
  if (!parsed.ok) throw new Error(`${field}: "${text}" is not read: ${parsed.what}`);
  return ruled === 'cylinder' && units === 'imperial' ? parsed.value / fillBar : parsed.value;
}

describe('a refused number', () => {
  const fields = Object.keys(NUMBER_RULES) as NumberField[];

  it.each(
    fields.flatMap((field) => [METRIC, IMPERIAL].map((reader) => [field, reader.units, reader] as const)),
  )(
    '%s in %s names bounds that are accepted as they are printed, and none beyond them',
    (field, _, reader) => {
      const { min, max } = NUMBER_RULES[field];
      for (const value of [min - Math.abs(min) - 1, max + Math.abs(max) + 1]) {
        const match = /; it can be (\S+) to (\S+?)(?: [^.]*)?\. /.exec(refused(field, value, reader));
        const bounds = [match![1]!, match![2]!].map((text) => typedInto(field, text, reader));
        for (const bound of bounds) expect(numberTrouble(field, bound)).toBeNull();
        // The range printed is the whole of it, to a hundredth of its width or the rounding of a field.
        const slack = (max - min) / 100 + 0.01;
        expect(bounds[0]! - min).toBeLessThan(slack);
        expect(max - bounds[1]!).toBeLessThan(slack);
      }
    },
  );

  it.each<[NumberField, number, string]>([
    ['depthM', 500 * 0.3048, 'Depth is 500 ft; it can be 4 to 328 ft. Give the deepest point of the dive.'],
    [
      'depthM',
      328.5 * 0.3048,
      'Depth is 328.5 ft; it can be 4 to 328 ft. Give the deepest point of the dive.',
    ],
    [
      'descentMPerMin',
      200 * 0.3048,
      'Descent rate is 200 ft/min; it can be 10 to 98 ft/min. Give the rate at which the party goes down; 60 ft/min is usual.',
    ],
    [
      'fillBar',
      1000,
      'Fill pressure is 14503.774 psi; it can be 291 to 5076 psi. Give the gauge pressure of a full cylinder; 3000 psi is usual.',
    ],
    [
      'surfaceRateLpm',
      5 * 28.316846592,
      'Surface gas rate (RMV) is 5 cu ft/min; it can be 0.11 to 3.53 cu ft/min. Give what the diver breathes at the surface; 0.5 to 0.7 cu ft/min is usual.',
    ],
    [
      'waterL',
      (500 * 28.316846592) / 200,
      'Cylinder size is 500 cu ft; it can be 7.1 to 423.7 cu ft. Give the size of the cylinder; 80 cu ft is usual.',
    ],
    [
      'stopDepthM',
      40,
      'Depth of the safety stop is 131.234 ft; it can be 4 to 98 ft. Give the depth of the stop, 15 ft is usual.',
    ],
    [
      'altitudeM',
      20_000 * 0.3048,
      'Altitude is 20000 ft; it can be 0 to 14763 ft. Give the height of the water’s surface above the sea; 0 at the sea.',
    ],
  ])('%s is told in feet, psi and cubic feet', (field, value, text) => {
    expect(refused(field, value, IMPERIAL)).toBe(text);
  });

  it.each<[NumberField, number, string]>([
    ['depthM', 101, 'Depth is 101 m; it can be 1 to 100 m. Give the deepest point of the dive.'],
    ['o2', 0.15, 'Oxygen is 15 %; it can be 20 to 100 %. Give the share of oxygen in the mix; air has 21 %.'],
    [
      'gradient',
      1.2,
      'Gradient factor is 120 %; it can be 10 to 100 %. 50 % at the first stop and 80 % at the surface is usual.',
    ],
    [
      'workingPo2',
      2,
      'Working PO2 is 2 bar; it can be 0.5 to 1.6 bar. Give the limit for the working part of a dive; 1.4 bar is usual.',
    ],
    ['analysisTolerance', 0.2, 'Analysis tolerance is 20 %; it can be 0 to 5 %. 1 % is usual.'],
    [
      'stopMin',
      0.25,
      'Time of the safety stop is 0.25 min; it can be 0.5 to 60 min. Give its minutes, 3 min is usual.',
    ],
  ])('%s is told as the field shows it, without a word for files', (field, value, text) => {
    expect(refused(field, value, METRIC)).toBe(text);
  });

  it('names a cylinder by its water where the fill is not known', () => {
    expect(refused('waterL', 80, { ...IMPERIAL, fillBar: undefined })).toContain(
      'Cylinder size is 80 L of water; it can be 1 to 60 L of water.',
    );
  });
});

describe('wordsIn', () => {
  const trip = demoTrip();
  const words = wordsIn({ units: 'metric', clock: '12h', trip });
  const [diver, site, mix] = [trip.party[1]!, trip.sites[2]!, trip.mixes[1]!];

  it.each<[string, Said, string]>([
    ['a dive by its number', said`${named('dive', trip.dives[1]!.id)}.`, 'dive 2.'],
    ['a dive at the beginning', said`${subject('dive', trip.dives[0]!.id)} starts.`, 'Dive 1 starts.'],
    ['a dive of before', said`from ${named('earlier dive', 'b1')}`, 'from the dive before the trip'],
    ['a diver by name', said`${named('diver', diver.id)}`, diver.name],
    ['a site by name', said`${named('site', site.id)}`, site.name],
    ['a mix as the trade writes it', said`${named('mix', mix.id)}`, mixText(mix.o2)],
    ['what it does not know by its id', said`${named('site', 'nowhere')}`, '“nowhere”'],
    ['a moment', said`${moment('2027-03-17T19:35')}`, 'Wed 17, 7:35 pm'],
    ['a day', said`${dayOf('2027-03-17')}`, 'Wed 17 March'],
    ['a time of day', said`${timeOfDay('07:30')}`, '7:30 am'],
    [
      'a figure with its decimals and no more',
      said`${typed('depth', 18.25)}, ${typed('depth', 20)}`,
      '18.25 m, 20 m',
    ],
    [
      'figures below zero and whole hundreds',
      said`${typed('plain', -95)} ${typed('plain', 1200)}`,
      '−95 1200',
    ],
  ])('names %s', (_, sentence, text) => {
    expect(words(sentence)).toBe(text);
  });
});

describe('a refused edit', () => {
  const inUnits = (units: Units): void => {
    desk.setState({ ...freshDesk(demoTrip()), settings: { ...desk.getState().settings, units } });
  };
  beforeEach(() => inUnits('metric'));

  it('says which dives clash, by their numbers on screen', () => {
    const { dives } = desk.getState().trip;
    const result = setStart(dives[1]!.id, dives[0]!.startsAt.replace(/T.*/, 'T09:40'));
    expect(result.ok).toBe(false);
    if (result.ok) return;
    expect(result.troubles[0].what).toMatch(/^Dive \d+ starts .* surfaces from dive \d+ at /);
    expect(result.troubles[0].what).not.toMatch(/T\d\d:|"/);
  });

  it('speaks of feet and psi where the window does', () => {
    inUnits('imperial');
    const { dives, party } = desk.getState().trip;
    const texts = [
      setDepth(dives[0]!.id, 400 * 0.3048),
      setDepth(dives[0]!.id, 328 * 0.3048),
      setCylinder(party[0]!.id, { reserveBar: 210 }),
      setMix(dives[0]!.id, 'gone'),
    ].map((result) => (result.ok ? '' : `${result.troubles[0].what} ${result.troubles[0].mend}`));
    expect(texts[0]).toContain('Depth is 400 ft; it can be 4 to 328 ft.');
    expect(texts[2]).toContain('psi');
    expect(texts[3]).toBe('There is no mix "gone". Choose another, or add it.');
    for (const text of texts) expect(text).not.toMatch(/\d (m|bar|L)\b/);
  });

  it('tells a bottom time that is over on the way down in the units of the window', () => {
    inUnits('imperial');
    const { dives } = desk.getState().trip;
    const square = dives.filter(({ legs }) => legs === undefined);
    const deepest = square.toSorted((a, b) => b.depthM - a.depthM)[0]!;
    const short = setBottomMin(deepest.id, 1);
    expect(short.ok ? '' : short.troubles[0].what).toMatch(
      /^1 min is over before \d+ ft is reached: the way there takes \d\.\d min\.$/,
    );
  });
});
