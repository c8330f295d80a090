import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../../../core/cautions/all';
import { highTrip } from '../../../../core/document/high-trip';
import { ledgerDocument } from '../../../../core/formats/ledger-document';
import { ledger } from '../../../../core/ledger/ledger';
import { wallText } from '../../../../core/words/calendar';
import { fileWords } from '../../../../core/words/reader';
import { planTable } from '../../../../electron/terminal/plan-table';
import { pageReader } from '../../../../core/words/reader';

describe('the second demo', () => {
  const trip = highTrip();
  const whole = ledger(trip);

  it('is three on open circuit and one on a loop in two waters, over one pass at 2,100 m on the way home', () => {
    expect(trip.party.map(({ loop }) => loop !== undefined)).toEqual([false, false, false, true]);
    expect(trip.dives.every(({ loops }) => loops?.length === 1)).toBe(true);
    expect(trip.events!.map(({ altitudeM }) => altitudeM)).toEqual([640, 2100]);
    expect(trip.events!.at(-1)!.to < trip.flight!.at).toBe(true);
  });

  it('keeps every limit, and raises what is to know alone', () => {
    expect(cautionsOf(whole).filter(({ severity }) => severity !== 'know')).toEqual([]);
  });

  it('is reckoned at the tarn in fresh water under less air', () => {
    const [mine] = whole.divers;
    const tarn = mine!.entries.find(({ dive }) => dive.siteId === 'tarn')!;
    // ISO 2533 at 640 m: 0.93873 bar; 16 m of fresh water: 1.56906 bar.
    expect(tarn.po2Bar).toBeCloseTo(0.32 * (0.93873 + 1.56906), 4);
  });

  it('says a day earlier that the road is too soon, and until when to wait', () => {
    const earlier = trip.events!.map((event) =>
      event.id === 'e2' ? { ...event, from: '2027-05-11T15:00', to: '2027-05-11T16:10' } : event,
    );
    const hasty = ledger({ ...trip, events: earlier });
    const [stop] = cautionsOf(hasty).filter(({ code }) => code === 'climb-too-soon');
    const clear = wallText(hasty.divers[0]!.climbs.at(-1)!.clearMin);
    expect(clear.slice(0, 10)).toBe('2027-05-12');
    expect(fileWords(stop!.says)).toContain(`going up is clear on ${clear.replace('T', ' at ')}`);
  });

  it('is told by the command: the water of the tarn, and each way up', () => {
    const text = planTable(whole, cautionsOf(whole), pageReader('metric')).replaceAll(/\s+/g, ' ');
    expect(text).toContain('Not as the other sites: at 640 m, fresh water');
    // Once for all whom it is told alike, each diver in one of the lines.
    const lines = [...text.matchAll(/Over the Saddle, 2100 m: ([^.]*?) clear to go up from ([^(]*)/g)];
    expect(new Set(lines.map(([, , at]) => at)).size).toBe(lines.length);
    const named = lines.map(([, who]) => who).join(' and ');
    for (const { diver } of whole.divers) {
      expect(named === 'everybody' || named.includes(diver.name), diver.name).toBe(true);
    }
    const [{ climbs, entries }] = ledgerDocument(whole, []).divers as never as [
      { climbs: readonly { toM: number }[]; entries: readonly { altitudeM: number }[] },
    ];
    expect(climbs.map(({ toM }) => toM)).toEqual([640, 2100]);
    expect(entries.map(({ altitudeM }) => altitudeM)).toEqual([0, 0, 0, 0, 640, 0, 0]);
  });
});
