import { Fragment, type ReactNode } from 'react';
import { closeOverlay } from '../../actions/view';
import { Dialog } from '../../parts/dialog';
import { guideBlocks, type GuideBlock } from './guide-text';
import guide from './guide.md?raw';
import classUrl from './class.webp';
import daysUrl from './days.webp';
import draftUrl from './draft.webp';
import eveningUrl from './evening.webp';
import mixesUrl from './mixes.webp';
import slatesUrl from './slates.webp';
import styles from './guide-sheet.module.css';

/** Pictures are files of the bundle, fetched when they come into view. */
const PICTURES: Readonly<Record<string, string>> = {
  'class.webp': classUrl,
  'days.webp': daysUrl,
  'draft.webp': draftUrl,
  'evening.webp': eveningUrl,
  'mixes.webp': mixesUrl,
  'slates.webp': slatesUrl,
};

function Block({ block }: { readonly block: GuideBlock }): ReactNode {
  switch (block.kind) {
    case 'heading':
      return <h3 className={styles.heading}>{block.text}</h3>;
    case 'paragraph':
      return <p className={block.isCaution ? 'care' : undefined}>{block.text}</p>;
    case 'picture':
      return (
        <img
          className={styles.picture}
          src={PICTURES[block.file]}
          alt={block.text}
          width={1280}
          height={800}
          loading="lazy"
        />
      );
    case 'steps':
      return (
        <ol className={styles.steps}>
          {block.steps.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      );
  }
}

/** The six jobs, each with its picture. */
export function GuideSheet(): ReactNode {
  return (
    <Dialog title="Guide" width="wide" onClose={closeOverlay}>
      <div className={styles.guide}>
        {guideBlocks(guide).map((block, at) => (
          // The text never changes, so a block's place names it.
          // oxlint-disable-next-line react/no-array-index-key
          <Fragment key={at}>
            <Block block={block} />
          </Fragment>
        ))}
      </div>
    </Dialog>
  );
}
