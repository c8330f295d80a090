import { memo, useCallback, useLayoutEffect, useRef, type ReactNode } from 'react';
import { selectChosenDives } from '../../store/selectors';
import { FrameLater } from '../../parts/frame-later';
import { lazily } from '../../parts/lazily';
import { useDesk } from '../../store/store';
import { DiveCard } from './card/dive-card';
import { Headline } from './headline';
import { CARD_PART, isInCard, isStripFirst, STRIP_PART } from './in-card';
import { STAND_IN } from './stand-in';
import { Strip } from './strip/strip';
import { TripCard } from './trip-card';
import { useClipboard } from './use-clipboard';
import styles from './days.module.css';

/** Opened once a day: loaded when somebody asks. */
const Evening = lazily(
  () => import('./evening/evening'),
  (part) => part.Evening,
  STAND_IN,
);

/** Shown where several dives are chosen, which takes a second choice first. */
const SeveralCard = lazily(
  () => import('./card/several-card'),
  (part) => part.SeveralCard,
  STAND_IN,
);

/** A spreadsheet of its own weight: loaded when it is first shown. */
const TripTable = lazily(
  () => import('./table/trip-table'),
  (part) => part.TripTable,
  STAND_IN,
);

/** Home: how the trip stands, the strip and its bands, and a card for what is chosen. */
export function Days(): ReactNode {
  useClipboard();
  const evening = useDesk((state) => state.evening);
  const isMending = useDesk((state) => state.overlay?.kind === 'mend');
  const isTable = useDesk((state) => state.isTable && state.evening === null);
  const side = useRef<HTMLElement>(null);
  const isScrolled = useRef(false);
  // Another dive is read from its head, wherever the card of the last one was scrolled to.
  const toHead = useCallback(() => {
    // Set where it is 0 already, it would have the page laid out at once all the same.
    if (side.current && isScrolled.current) side.current.scrollTop = 0;
  }, []);
  if (isTable) {
    return (
      <div className={styles.days}>
        <Headline />
        <TripTable />
      </div>
    );
  }
  return (
    <div className={styles.days} data-step={isMending ? 'mend' : evening?.step}>
      <FrameLater>
        <Headline />
      </FrameLater>
      <div className={styles.strip} data-part={STRIP_PART}>
        <FrameLater isAtOnce={isStripFirst}>
          <Strip />
        </FrameLater>
      </div>
      {evening ? (
        <Evening evening={evening} />
      ) : (
        <aside
          ref={side}
          className={styles.side}
          aria-label="Chosen"
          data-part={CARD_PART}
          onScroll={({ currentTarget }) => {
            isScrolled.current = currentTarget.scrollTop > 0;
          }}
        >
          <FrameLater isAtOnce={isInCard}>
            <Side toHead={toHead} />
          </FrameLater>
        </aside>
      )}
    </div>
  );
}

const Side = memo(function Side({ toHead }: { readonly toHead: () => void }): ReactNode {
  const chosen = useDesk(selectChosenDives);
  const chosenIds = useDesk(({ selection }) => selection.diveIds);
  const read = useRef(chosenIds);
  useLayoutEffect(() => {
    if (read.current === chosenIds) return;
    read.current = chosenIds;
    toHead();
  });
  const [dive] = chosen;
  if (!dive) return <TripCard />;
  return chosen.length > 1 ? <SeveralCard dives={chosen} /> : <DiveCard dive={dive} />;
});
