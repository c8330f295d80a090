import { onTypeStep, typeStep } from '../parts/type-scale';
import { desk } from '../store/store';

const LARGE_TEXT = 1.2;

/** Keeps the page's look, size of text and title with the desk. */
export function followLook(): void {
  const dark = window.matchMedia('(prefers-color-scheme: dark)');
  const root = document.documentElement;
  const apply = (): void => {
    const { settings, trip } = desk.getState();
    const isCabin = settings.look === 'cabin' || (settings.look === 'system' && dark.matches);
    root.dataset['look'] = isCabin ? 'cabin' : 'light';
    // Media queries know nothing of this size: from here on the page scrolls instead of filling the window.
    root.dataset['text'] = settings.textScale > LARGE_TEXT ? 'large' : 'usual';
    root.style.fontSize = `${settings.textScale * typeStep() * 100}%`;
    const title = `${trip.title} · Carryover`;
    if (document.title !== title) document.title = title;
  };
  apply();
  desk.subscribe((now, before) => {
    if (now.settings !== before.settings || now.trip.title !== before.trip.title) apply();
  });
  dark.addEventListener('change', apply);
  onTypeStep(apply);
}
