import type { Page } from '@playwright/test';
import axe from 'axe-core';

const WCAG_22_AA = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/**
 * What of the page, as it stands, breaks WCAG 2.2 AA; none where it is empty. Axe runs in the page itself and tells
 * what is wrong alone: the builder for this runner opens a page of its own each time, and everything found to be
 * right is written down as well, which costs three times the looking.
 */
export async function wcagBreaches(page: Page): Promise<readonly string[]> {
  // It is half a megabyte, and a page is looked at in many states.
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(axe.source);
  return page.evaluate(async (values) => {
    const { run } = (globalThis as unknown as { axe: typeof axe }).axe;
    const { violations } = await run({ runOnly: { type: 'tag', values }, resultTypes: ['violations'] });
    return violations.flatMap(({ id, nodes }) =>
      nodes.map(({ html, failureSummary }) => `${id}: ${html}\n${failureSummary}`),
    );
  }, WCAG_22_AA);
}
