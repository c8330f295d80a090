import { describe, expect, it } from 'vitest';
import type { Attack } from '../attack/attack';

/** Attacks of `npm run attack` as tests, each a few of its times. */
export function testInPart(attacks: readonly Attack[]): void {
  describe('attacks', () => {
    it.each(attacks)(
      '$title ($quick times): nothing falls',
      async ({ title, quick, run }) => {
        const { tried, told, fell } = await run(quick);
        console.log(`${title}: ${told.join('; ')}`);
        expect(fell).toEqual([]);
        expect(tried).toBeGreaterThanOrEqual(quick);
      },
      3_600_000,
    );
  });
}
