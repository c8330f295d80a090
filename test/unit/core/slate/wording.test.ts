import { describe, expect, it } from 'vitest';
import { slateWording } from '../../../../core/slate/wording';

describe('slateWording', () => {
  it('gives a limit of PO2 as the page does: as it is set', () => {
    expect(slateWording('metric').po2Limit(1.405)).toBe('1.405 bar');
    expect(slateWording('imperial').po2Limit(1.4)).toBe('1.4 bar');
  });
});
