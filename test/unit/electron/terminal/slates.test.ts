import { describe, expect, it } from 'vitest';
import { assert } from '../../../../core/result';
import { slatePdf } from '../../../../core/slate/pdf';
import { ledger } from '../../../../core/ledger/ledger';
import { slateFonts, slateFromOptions } from '../../../../electron/terminal/slates';
import type { Trip } from '../../../../core/document/types';
import { readPdf } from '../../../support/pdf/read-pdf';
import { aDive, aTrip } from '../../../builders/trip';
import { aPaper, aRequest } from '../../../support/slates';

/** A dive past its limit, so that there is a caution with depths in it. */
const trip = aTrip([aDive({ depthM: 39, bottomMin: 20, mix: 'rich' })]);

async function bytesOf(units: string): Promise<Uint8Array> {
  const made = await slateFromOptions({ paper: 'A5', units }, ledger(trip), '2027-03-01');
  assert(made.ok, 'no slates');
  return made.value.bytes;
}

describe('slateFromOptions', () => {
  it('makes the pages of the same request, cautions in the units of the page', async () => {
    for (const units of ['metric', 'imperial', 'both'] as const) {
      const same = await slatePdf(aRequest(trip, { paper: aPaper('A5'), units, fonts: slateFonts() }));
      assert(same.ok && same.value !== null, 'no PDF');
      expect(Buffer.from(await bytesOf(units)).equals(Buffer.from(same.value.bytes))).toBe(true);
    }
  });

  it('says on a briefing what changed since an earlier file', async () => {
    const before = { ...trip, dives: trip.dives.map((dive) => ({ ...dive, depthM: 30 })) };
    const textOf = async (since: Trip | null): Promise<string> => {
      const made = await slateFromOptions({ kind: 'briefing' }, ledger(trip), '2027-03-01', since);
      assert(made.ok, 'no briefing');
      const pages = await readPdf(made.value.bytes);
      return pages.map(({ text }) => text.replaceAll(/\s+/g, ' ')).join(' ');
    };
    expect(await textOf(before)).toMatch(/Changed .*39 m, not 30 m/);
    expect(await textOf(trip)).toMatch(/Changed .*Nothing of this day/);
    expect(await textOf(null)).not.toContain('Changed');
  });

  it('hands on what is wrong with the words, and with what they ask for', async () => {
    const words = await slateFromOptions({ paper: 'A0', kind: 'wall' }, ledger(trip), '2027-03-01');
    assert(!words.ok, 'taken');
    expect(words.troubles.map((trouble) => trouble.where)).toEqual(['--kind', '--paper']);
    const day = await slateFromOptions({ days: ['2027-01-01'] }, ledger(trip), '2027-03-01');
    assert(!day.ok, 'taken');
    expect(day.troubles.map((trouble) => trouble.kind)).toEqual(['date']);
  });
});
