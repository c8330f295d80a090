import { useEffect, useState, type ReactNode } from 'react';
import type { AboutHost } from '../../core/host';
import { closeOverlay } from '../actions/view';
import { Dialog } from '../parts/dialog';
import { machine } from '../store/machine';
import { SafetySentences } from './safety-sentences';
import styles from './about.module.css';

export function About(): ReactNode {
  const [about, setAbout] = useState<AboutHost | null>(null);
  useEffect(() => {
    let isShown = true;
    void machine()
      .about()
      .then((value) => {
        if (isShown) setAbout(value);
      });
    return () => {
      isShown = false;
    };
  }, []);
  return (
    <Dialog title="About Carryover" onClose={closeOverlay}>
      <SafetySentences />
      <p className="soft">
        Nitrogen by ZH-L16C with gradient factors; oxygen by the NOAA exposure limits, OTU and ESOT. Press any
        figure to see how it is worked out and where its formula was published.
      </p>
      {about ? (
        <dl className={styles.versions}>
          <div>
            <dt>Carryover</dt>
            <dd>{about.app}</dd>
          </div>
          {about.versions.map(({ name, version }) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{version}</dd>
            </div>
          ))}
        </dl>
      ) : null}
    </Dialog>
  );
}
