import { useId, useState, type FormEvent, type ReactNode } from 'react';
import type { Id } from '../../../../core/document/types';
import { said } from '../../../../core/words/said';
import { UNIT_NAMES } from '../../../../core/words/terms';
import { newSiteFor } from '../../../actions/dive-rest';
import { closeOverlay } from '../../../actions/view';
import { parseFigure } from '../../../figures/parse';
import { Dialog } from '../../../parts/dialog';
import { RefusalLine } from '../../../parts/refusal-line';
import type { Refusal } from '../../../parts/use-draft';
import { useWords } from '../../../parts/use-words';
import { useDesk } from '../../../store/store';
import styles from './sheets.module.css';
import field from '../../../parts/field.module.css';

/** A site that is not in the list yet, made for the dives that are to go there: one step of undo. */
export function NewSiteSheet({ diveIds }: { readonly diveIds: readonly Id[] }): ReactNode {
  const words = useWords();
  const id = useId();
  const units = useDesk(({ settings }) => settings.units);
  const [name, setName] = useState('');
  const [depth, setDepth] = useState('');
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const add = (event: FormEvent): void => {
    event.preventDefault();
    if (name.trim() === '') {
      setRefusal({ what: words(said`The site has no name.`), mend: words(said`Type one.`) });
      return;
    }
    const parsed = parseFigure(depth, 'depth', units);
    if (!parsed.ok) {
      setRefusal(parsed);
      return;
    }
    const result = newSiteFor(diveIds, name.trim(), parsed.value);
    if (result.ok) closeOverlay();
    else setRefusal(result.troubles[0]);
  };
  const described = refusal ? { 'aria-describedby': `${id}-refusal`, 'aria-invalid': true } : {};
  return (
    <Dialog title={words(said`New site`)} onClose={closeOverlay} startsInFields>
      <form className={styles.form} onSubmit={add}>
        <div className={field.field}>
          <label htmlFor={`${id}-name`}>{words(said`Name`)}</label>
          <input
            id={`${id}-name`}
            autoComplete="off"
            value={name}
            onChange={(event) => setName(event.target.value)}
            {...described}
          />
        </div>
        <div className={field.field}>
          <label htmlFor={`${id}-depth`}>{words(said`Its depth, ${UNIT_NAMES.depth[units]}`)}</label>
          <input
            id={`${id}-depth`}
            autoComplete="off"
            inputMode="decimal"
            value={depth}
            onChange={(event) => setDepth(event.target.value)}
            {...described}
          />
        </div>
        <RefusalLine id={`${id}-refusal`} refusal={refusal} />
        <p className={styles.foot}>
          <button type="submit" className="button first">
            {words(diveIds.length === 1 ? said`Add it and dive there` : said`Add it and dive there with all`)}
          </button>
        </p>
      </form>
    </Dialog>
  );
}
