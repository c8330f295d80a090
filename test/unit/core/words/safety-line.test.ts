import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { SAFETY_LINE, SAFETY_SENTENCES } from '../../../../core/words/safety-line';
import { fileWords } from '../../../../core/words/reader';

describe('the cautions', () => {
  it('say to plan within training, to analyse, whom to follow, and what no model does', () => {
    expect(fileWords(SAFETY_LINE)).toBe(
      'Plan within your training and certification, analyse every cylinder yourself, follow your dive computer, ' +
        'the operator, local rules and licensed practice. Models and tables do not prevent decompression ' +
        'sickness or oxygen toxicity.',
    );
  });

  it('are the same where they stand one by one', () => {
    const line = fileWords(SAFETY_LINE).toLowerCase();
    expect(SAFETY_SENTENCES).toHaveLength(4);
    for (const each of SAFETY_SENTENCES.map(fileWords)) {
      expect(each).toMatch(/^[A-Z].*\.$/);
      const [clause] = each
        .toLowerCase()
        .replace(/\.$/, '')
        .split(/, and |; /);
      expect(line).toContain(clause);
    }
  });

  it('stand in the README', () => {
    const readme = readFileSync(join(import.meta.dirname, '../../../../README.md'), 'utf8');
    expect(readme.replaceAll(/\s+/g, ' ')).toContain(fileWords(SAFETY_LINE));
  });
});
