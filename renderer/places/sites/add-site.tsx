import { unitName } from '../../figures/format';
import { useId, useRef, useState, type ReactNode } from 'react';
import { addSites } from '../../actions/sites';
import { parseFigure } from '../../figures/parse';
import { RefusalLine } from '../../parts/refusal-line';
import type { Refusal } from '../../parts/use-draft';
import { useDesk } from '../../store/store';
import field from '../../parts/field.module.css';
import styles from './add-site.module.css';

const NO_NAME: Refusal = { what: 'The site has no name.', mend: 'Type one.' };
const NO_DEPTH: Refusal = { what: 'The site has no depth.', mend: 'Type one.' };

/** One more site by name and depth; the name has the focus again afterwards, so a list can be typed. */
export function AddSite(): ReactNode {
  const id = useId();
  const units = useDesk(({ settings }) => settings.units);
  const nameField = useRef<HTMLInputElement>(null);
  const [name, setName] = useState('');
  const [depth, setDepth] = useState('');
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const add = (): void => {
    const parsed = parseFigure(depth, 'depth', units);
    if (name.trim() === '') setRefusal(NO_NAME);
    else if (!parsed.ok) setRefusal(depth.trim() === '' ? NO_DEPTH : parsed);
    else {
      const result = addSites([{ name: name.trim(), depthM: parsed.value, notes: '', position: null }]);
      if (!result.ok) setRefusal(result.troubles[0]);
      else {
        setName('');
        setDepth('');
        setRefusal(null);
        nameField.current?.focus();
      }
    }
  };
  const described = refusal ? { 'aria-describedby': `${id}-refusal`, 'aria-invalid': true } : {};
  return (
    <form
      className={styles.form}
      aria-label="Add a site"
      onSubmit={(event) => {
        event.preventDefault();
        add();
      }}
    >
      <div className={`${field.field} ${styles.name}`}>
        <label htmlFor={`${id}-name`}>New site</label>
        <input
          id={`${id}-name`}
          ref={nameField}
          autoComplete="off"
          value={name}
          onChange={(event) => setName(event.target.value)}
          {...described}
        />
      </div>
      <div className={`${field.field} ${styles.depth}`}>
        <label htmlFor={`${id}-depth`}>Its depth, {unitName('depth', units)}</label>
        <input
          id={`${id}-depth`}
          autoComplete="off"
          inputMode="decimal"
          value={depth}
          onChange={(event) => setDepth(event.target.value)}
          {...described}
        />
      </div>
      <button type="submit" className="button">
        Add
      </button>
      <RefusalLine id={`${id}-refusal`} refusal={refusal} />
    </form>
  );
}
