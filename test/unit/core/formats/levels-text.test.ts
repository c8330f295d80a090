import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readGpx, writeGpx } from '../../../../core/formats/gpx';
import { levelBelow, levelsShown, levelsText, readLevels } from '../../../../core/formats/levels-text';
import { readSiteRows, writeSiteRows } from '../../../../core/formats/site-rows';
import { fileWords } from '../../../../core/words/reader';
import type { Site } from '../../../../core/document/types';

describe('readLevels', () => {
  it.each([
    [
      '30/15, 20/15, 10/15',
      [
        [30, 15],
        [20, 15],
        [10, 15],
      ],
    ],
    [
      '30/15,20/15',
      [
        [30, 15],
        [20, 15],
      ],
    ],
    [
      '30/15; 9,5/20',
      [
        [30, 15],
        [9.5, 20],
      ],
    ],
    [
      '30 m/15 min + 12m/20',
      [
        [30, 15],
        [12, 20],
      ],
    ],
    ['', []],
  ])('reads %j', (text, expected) => {
    const levels = readLevels(text, 'm');
    expect('what' in levels ? levels : levels.map(({ depthM, min }) => [depthM, min])).toEqual(expected);
  });

  it('counts in feet where nothing else is said', () => {
    expect(readLevels('100/15, 10 m/20', 'ft')).toEqual([
      { depthM: 100 * 0.3048, min: 15 },
      { depthM: 10, min: 20 },
    ]);
  });

  it.each(['30', '30/', 'deep/15', '30/15/10', '300/15', '30/0', '30/15 20/10', '1'.repeat(500)])(
    'refuses %j, and says why',
    (text) => {
      const levels = readLevels(text, 'm');
      expect('what' in levels && fileWords(levels.mend)).toBeTruthy();
    },
  );

  it('reads what it writes, to the last digit', () => {
    const level = fc.record({
      depthM: fc.double({ min: 1, max: 100, noNaN: true }),
      min: fc.double({ min: 0.5, max: 720, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(level, { maxLength: 5 }), (levels) => {
        expect(readLevels(levelsText(levels), 'm')).toEqual(levels);
      }),
    );
  });

  it('shows whole feet and tenths of a metre', () => {
    const levels = [{ depthM: 60 * 0.3048, min: 15 }];
    expect(levelsShown(levels, 'ft')).toBe('60/15');
    expect(levelsShown(levels, 'm')).toBe('18.3/15');
    expect(levelBelow(levels, 60 * 0.3048 - 1e-12)).toBeNull();
    expect(levelBelow(levels, 18)).not.toBeNull();
  });
});

const FULL: Site = {
  id: 's1',
  name: 'Far Bank',
  depthM: 33,
  levels: [
    { depthM: 33, min: 12 },
    { depthM: 18.288, min: 20 },
  ],
  notes: 'Swim through, "north" end',
  briefing: 'Wall on the right; out at the arch.',
  planB: 'The jetty, 8 m',
  notFor: { depthLimitUnderM: 30, certifications: ['open water', 'junior'] },
  position: { lat: 12.5, lon: -45.25 },
};
const PLAIN: Site = { id: 's2', name: 'Gull Steps', depthM: 14, notes: '', position: { lat: 12, lon: -45 } };

describe('levels, plan B, briefing and who may not', () => {
  const { id: _, ...full } = FULL;
  const { id: __, ...plain } = PLAIN;

  it('come back from a CSV file and from a GPX file', () => {
    expect(readSiteRows(writeSiteRows([FULL, PLAIN]))).toEqual({ sites: [full, plain], troubles: [] });
    expect(readGpx(writeGpx([FULL, PLAIN], 'Week').text)).toEqual({ sites: [full, plain], troubles: [] });
  });

  it('have no column where no site has them', () => {
    expect(writeSiteRows([PLAIN]).replace('\u{FEFF}', '').split('\r\n')[0]).toBe(
      'name,depth (m),latitude,longitude,notes',
    );
  });

  it('are read under their headings, in the unit of each', () => {
    const { sites, troubles } = readSiteRows(
      'Site\tDepth (ft)\tLevels (m/min)\tLeast depth limit (m)\tNot for\nWall\t100\t30/15, 12/20\t18\topen water',
    );
    expect(troubles).toEqual([]);
    expect(sites[0]).toMatchObject({
      levels: [
        { depthM: 30, min: 15 },
        { depthM: 12, min: 20 },
      ],
      notFor: { depthLimitUnderM: 18, certifications: ['open water'] },
    });
  });

  it('are refused with their row where a level lies below the site', () => {
    const { sites, troubles } = readSiteRows('name;depth;levels\nWall;18;20/10');
    expect(sites).toEqual([]);
    expect(troubles[0]).toMatchObject({ where: 'line 2', what: 'A level is deeper than the site.' });
  });
});
