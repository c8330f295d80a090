import { expect, it } from 'vitest';
import { drawingFiles } from '../../attack/properties';

it('a hunt runs what draws its cases by lot, and nothing else', () => {
  const files = drawingFiles();
  expect(files).toContain('test/property/oxygen.test.ts');
  expect(files).toContain('test/unit/core/formats/tables.test.ts');
  expect(files).not.toContain('test/unit/core/oxygen/cns-day.test.ts');
});
