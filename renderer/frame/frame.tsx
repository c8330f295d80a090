import type { ReactNode } from 'react';
import { useDesk } from '../store/store';
import { Announcer } from './announcer';
import { Foot } from './foot';
import { Header } from './header';
import { NoticeLine } from './notice';
import { Overlays } from './overlays';
import { PLACE_VIEWS } from './place-views';
import styles from './frame.module.css';

/** The window: header, the place one is at, the cautions line, and what lies over it. */
export function Frame(): ReactNode {
  const place = useDesk(({ settings }) => settings.place);
  const ready = useDesk((state) => state.ready);
  const View = PLACE_VIEWS[place] ?? PLACE_VIEWS.days;
  return (
    <div className={styles.frame} data-fills={(ready && View === PLACE_VIEWS.days) || undefined}>
      <a className={styles.skip} href="#place">
        To the plan
      </a>
      <Header />
      <NoticeLine />
      <main id="place" tabIndex={-1}>
        {ready && View ? <View /> : <p className="waiting">Opening the last trip…</p>}
      </main>
      <Foot />
      <Overlays />
      <Announcer />
    </div>
  );
}
