import { useState, type ReactNode } from 'react';
import { PAPERS, readPaper } from '../../../core/slate/paper';
import { Choice } from '../../parts/choice';

const OWN = 'own size';

/** A named paper, or a size of one's own; what cannot be printed on is refused beside the field. */
export function PaperChoice(props: {
  readonly label: string;
  readonly value: string;
  readonly names?: readonly string[];
  readonly commit: (paper: string) => void;
}): ReactNode {
  const names = props.names ?? PAPERS.map((paper) => paper.name);
  const isNamed = names.includes(props.value);
  const [typing, setTyping] = useState<string | null>(null);
  const [refusal, setRefusal] = useState<string | null>(null);
  const isOwn = !isNamed || typing !== null;
  const put = (): void => {
    if (typing === null) return;
    const read = readPaper(typing);
    if (!read.ok) {
      setRefusal(`${read.troubles[0].what} ${read.troubles[0].mend}`);
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
        options={[...names, OWN].map((name) => ({ value: name, label: name }))}
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
        <div className="field">
          <label>
            {props.label}, width x height
            <input
              value={typing ?? props.value}
              placeholder="105x148mm"
              aria-invalid={refusal !== null}
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
          {refusal ? (
            <div className="field-refusal" role="alert">
              {refusal}
            </div>
          ) : null}
        </div>
      ) : null}
    </>
  );
}
