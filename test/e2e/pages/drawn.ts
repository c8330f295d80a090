import type { Page } from '@playwright/test';

/**
 * Waits until all that was asked of the page is drawn, also what is put off by a frame: a hand sees it before it can do
 * anything, a value that is set or read by a test does not wait for it.
 */
export async function drawn(page: Page): Promise<void> {
  await page.evaluate(async () => {
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    // What follows a frame is called by a message, and that may stand in a queue.
    await new Promise((done) => setTimeout(done));
  });
}
