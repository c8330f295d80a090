/** How long a browser may take to open its dialog: some do so only after the call has returned. */
const OPENS_WITHIN_MS = 3000;

/** Opens the browser's print dialog; true once it is done with, false where none opened. */
export function printWindow(): Promise<boolean> {
  return new Promise((resolve) => {
    let hasOpened = false;
    const onBefore = (): void => {
      hasOpened = true;
    };
    const end = (wasShown: boolean): void => {
      window.removeEventListener('beforeprint', onBefore);
      window.removeEventListener('afterprint', onAfter);
      resolve(wasShown);
    };
    const onAfter = (): void => end(true);
    window.addEventListener('beforeprint', onBefore);
    window.addEventListener('afterprint', onAfter);
    window.print();
    setTimeout(() => {
      if (!hasOpened) end(false);
    }, OPENS_WITHIN_MS);
  });
}
