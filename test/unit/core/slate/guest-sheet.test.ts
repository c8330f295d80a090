import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import type { Trip } from '../../../../core/document/types';
import { usualMarginMm } from '../../../../core/slate/options';
import type { SlateRequest } from '../../../../core/slate/request';
import { bigTrip } from '../../../bench/big-trip';
import { aPaper, layoutOf, wordsOf } from '../../../support/slates';

function sheets(trip: Trip, change: Partial<SlateRequest> = {}): readonly string[] {
  const { pages } = layoutOf(trip, { kind: 'guest', paper: aPaper('A4'), ...change });
  return pages.map((page) =>
    wordsOf(page)
      .replaceAll(/\s*\n\s*/g, ' ')
      .replaceAll(/ ([,.:;])/g, '$1'),
  );
}

describe('guest sheet', () => {
  it('takes one page a guest on A4 and letter, also for twelve and a week', () => {
    expect(sheets(demoTrip())).toHaveLength(4);
    for (const paper of ['A4', 'letter']) {
      for (const units of ['metric', 'both'] as const) {
        expect(sheets(bigTrip(28, 12), { paper: aPaper(paper), units })).toHaveLength(12);
      }
    }
  });

  it('takes one page a guest on A5 where the notes on sites stay off it, and says so', () => {
    const a5 = sheets(demoTrip(), { paper: aPaper('A5') });
    expect(a5).toHaveLength(4);
    for (const page of a5) {
      expect(page).toContain('Notes on the sites have no room here: a larger sheet has them');
      expect(page).toMatch(/What you breathe.*MOD.*Flying Not before.*Bring/);
    }
    expect(a5.join()).not.toContain('Coral heads on sand');
    // With less to say nothing stays off, nor where one page would not do all the same.
    const few = demoTrip();
    const short = { ...few, dives: few.dives.slice(0, 6) };
    for (const pages of [
      sheets(short, { paper: aPaper('A5') }),
      sheets(demoTrip(), { paper: aPaper('A6') }),
      sheets(demoTrip(), { paper: aPaper('A5'), units: 'both' }),
    ]) {
      expect(pages.join()).toContain('Coral heads on sand');
      expect(pages.join()).not.toContain('Notes on the sites');
    }
    expect(sheets(short, { paper: aPaper('A5') })).toHaveLength(4);
  });

  it('takes one page a guest on A5 and half letter with the margin that they have unasked', () => {
    for (const name of ['A5', 'half-letter']) {
      const paper = aPaper(name);
      for (const units of ['metric', 'imperial'] as const) {
        expect(sheets(demoTrip(), { paper, units, marginMm: usualMarginMm('guest', paper) })).toHaveLength(4);
      }
    }
  });

  it('gives dives below each other rather than break a word of a long name', () => {
    const trip = demoTrip();
    const name = 'Unterwasserwandmitlangemnamen';
    const long = { ...trip, sites: trip.sites.map((site) => ({ ...site, name })) };
    for (const paper of ['A5', 'A6']) {
      expect(sheets(long, { paper: aPaper(paper) }).join()).toContain(name);
    }
  });

  it('says where the guest rests, and what the limits are', () => {
    const [page] = sheets(demoTrip(), { diverIds: ['guest2'] });
    expect(page).toContain('Guest 2 20 dives, none below 29 m');
    expect(page).toContain('Your limits: no deeper than 30 m, no richer mix than EAN40.');
    expect(page).toMatch(/Tue 16 07:30 you rest Anvil Head/);
  });

  it('says the deepest as it stands beside the dive, in feet too', () => {
    const [page] = sheets(demoTrip(), { diverIds: ['guide'], units: 'imperial' });
    // 36 m is 118.1 ft: no deeper than 118 ft was planned.
    expect(page).toContain('07:30 118 ft');
    expect(page).toContain('none below 118 ft');
    expect(page).toContain('Anvil Head to 118 ft');
    expect(page).toContain('certificate for diving to 118 ft');
    expect(page).not.toContain('119 ft');
  });

  it('says when flying is clear, and that a flight leaves too soon', () => {
    const trip = demoTrip();
    expect(sheets(trip)[0]).toMatch(
      /Not before Sat 20, \d\d:\d\d\. Your flight at Sat 20, 16:30 leaves \d h/,
    );
    const soon = { ...trip, flight: { at: '2027-03-20T06:00' } };
    expect(sheets(soon)[0]).toContain('Your flight is too soon: it leaves at Sat 20, 06:00.');
    expect(sheets({ ...trip, flight: null })[0]).not.toContain('Your flight');
  });

  it('asks for a certificate of enriched air of who breathes it alone', () => {
    const trip = demoTrip();
    const air = {
      ...trip,
      dives: trip.dives.map((dive) => ({ ...dive, mix: 'auto' })),
      party: trip.party.map((diver) => ({ ...diver, maxO2: 0.21 })),
    };
    expect(sheets(trip)[0]).toContain('certificate for enriched air');
    expect(sheets(air)[0]).not.toContain('certificate for enriched air');
  });

  it('has no figure that needs an instructor', () => {
    for (const page of sheets(demoTrip(), { units: 'both' })) {
      expect(page).not.toMatch(/\d (bar|psi|%|L|cu ft)\b/);
      expect(page).not.toMatch(/no-stop|room|turn|minimum|CNS|OTU|PO2/);
    }
  });
});
