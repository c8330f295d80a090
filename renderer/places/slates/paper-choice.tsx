import { useId, useState, type ReactNode } from 'react';
import { PAPERS, readPaper } from '../../../core/slate/paper';
import { Choice } from '../../parts/choice';
import { RefusalLine } from '../../parts/refusal-line';
import type { Refusal } from '../../parts/use-draft';
import field from '../../parts/field.module.css';

const OWN = 'own size';

const NAMES: Readonly<Record<string, string>> = {
  letter: 'Letter',
  'half-letter': 'Half letter',
  [OWN]: 'Own size',
};

/** A paper as it is read: "105x148mm" as "105 × 148 mm". */
function paperLabel(name: string): string {
  return NAMES[name] ?? name.replace(/^([\d.]+)x([\d.]+)(mm|in)$/, '$1 × $2 $3');
}

/** A named paper, or a size of one's own; what cannot be printed on is refused beside the field. */
export function PaperChoice(props: {
  readonly label: string;
  readonly value: string;
  readonly names?: readonly string[];
  readonly commit: (paper: string) => void;
}): ReactNode {
  const names = props.names ?? PAPERS.map((paper) => paper.name);
  const isNamed = names.includes(props.value);
  const id = useId();
  const [typing, setTyping] = useState<string | null>(null);
  const [refusal, setRefusal] = useState<Refusal | null>(null);
  const isOwn = !isNamed || typing !== null;
  const put = (): void => {
    if (typing === null) return;
    const read = readPaper(typing);
    if (!read.ok) {
      setRefusal(read.troubles[0]);
      return;
    }
    setRefusal(null);
    setTyping(null);
    props.commit(read.value.name);
  };
  return (
    <>
      <Choice
        label={props.label}
        value={isOwn ? OWN : props.value}
        options={[...names, OWN].map((name) => ({ value: name, label: paperLabel(name) }))}
        commit={(name) => {
          setRefusal(null);
          if (name === OWN) setTyping(isNamed ? '' : props.value);
          else {
            setTyping(null);
            props.commit(name);
          }
        }}
      />
      {isOwn ? (
        <div className={field.field}>
          <label>
            {props.label}, width x height
            <input
              value={typing ?? props.value}
              placeholder="105x148mm"
              aria-invalid={refusal !== null}
              {...(refusal ? { 'aria-describedby': `${id}-refusal` } : {})}
              onChange={(event) => setTyping(event.target.value)}
              onBlur={put}
              onKeyDown={(event) => {
                if (event.key === 'Enter') put();
                if (event.key === 'Escape') {
                  event.stopPropagation();
                  setTyping(null);
                  setRefusal(null);
                }
              }}
            />
          </label>
          <RefusalLine id={`${id}-refusal`} refusal={refusal} />
        </div>
      ) : null}
    </>
  );
}
