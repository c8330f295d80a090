import { useEffect, useState, type ReactNode } from 'react';
import type { AboutHost } from '../../core/host';
import { SAFETY_SENTENCES } from '../../core/words/safety-line';
import { closeOverlay } from '../actions/view';
import { useWords } from '../parts/use-words';
import { Dialog } from '../parts/dialog';
import { machine } from '../store/machine';

export function About(): ReactNode {
  const words = useWords();
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
      <ul className="cautions-text">
        {SAFETY_SENTENCES.map(words).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p className="soft">
        Nitrogen by ZH-L16C with gradient factors; oxygen by the NOAA exposure limits, OTU and ESOT. Every
        figure can be asked how it is worked out, and says where its formula was published.
      </p>
      {about ? (
        <dl className="versions">
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
