/** Every attack of `npm run attack`, in part. */
import { describe, expect, it } from 'vitest';
import { ATTACKS } from '../attack/all';

describe('attacks', () => {
  it.each(ATTACKS)(
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
