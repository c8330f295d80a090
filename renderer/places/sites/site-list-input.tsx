import { unitName } from '../../figures/format';
import { useId, type ClipboardEvent, type ReactNode } from 'react';
import { numberTrouble } from '../../../core/document/fields';
import { failure } from '../../../core/result';
import { capital, worded } from '../../../core/words/reader';
import { say } from '../../store/notice';
import { depthText } from '../../figures/format';
import { positionText } from '../../figures/position';
import { fromUnit } from '../../../core/words/quantity';
import { parseFigure } from '../../figures/parse';
import { wordsIn } from '../../figures/reader';
import { Field } from '../../parts/field';
import { machine } from '../../store/machine';
import { useDesk } from '../../store/store';
import type { DepthSuggestion } from '../../../core/formats/site-draft';
import { EMPTY_SITE_LIST, listOf, type ListedSite, type ReadSiteList, type SiteList } from './site-list';
import field from '../../parts/field.module.css';
import styles from './site-list-input.module.css';

/** Where a list is typed or pasted, or a file is chosen, and beneath it what was understood of it. */
export function SiteListInput(props: {
  readonly label: string;
  readonly list: SiteList;
  readonly read: ReadSiteList;
  readonly change: (list: SiteList) => void;
  readonly rows?: number;
}): ReactNode {
  const { label, list, read, change, rows = 6 } = props;
  const choose = async (): Promise<void> => {
    const result = await machine().openText();
    if (!result.ok) say({ tone: 'refused', lines: [result.trouble] });
    else if (result.value) change(listOf(result.value.text));
  };
  return (
    <div className={styles.list}>
      {list.text.length > LONGEST_SHOWN ? (
        <TooLong label={label} clear={() => change(EMPTY_SITE_LIST)} />
      ) : (
        <Typed label={label} text={list.text} change={(text) => change(listOf(text))} rows={rows} />
      )}
      <button type="button" className="linked" onClick={() => void choose()}>
        Choose a file
      </button>
      <Troubles read={read} />
      {read.sites.length > 0 ? <Rows list={list} read={read} change={change} /> : null}
    </div>
  );
}

/** A longer text is read, and not shown: a field of so many lines keeps the browser itself busy for a second. */
const LONGEST_SHOWN = 100_000;

/** The text of the list as it is typed or pasted. */
function Typed(props: {
  readonly label: string;
  readonly text: string;
  readonly change: (text: string) => void;
  readonly rows: number;
}): ReactNode {
  const { label, text, change, rows } = props;
  const id = useId();
  const units = useDesk(({ settings }) => settings.units);
  const paste = (event: ClipboardEvent<HTMLTextAreaElement>): void => {
    const pasted = event.clipboardData.getData('text/plain');
    if (pasted.length <= LONGEST_SHOWN) return;
    // Never put into the field at all.
    event.preventDefault();
    const { selectionStart, selectionEnd } = event.currentTarget;
    change(`${text.slice(0, selectionStart)}${pasted}${text.slice(selectionEnd)}`);
  };
  return (
    <div className={`${field.field} ${field.wide}`}>
      <label htmlFor={id}>{label}</label>
      <textarea
        id={id}
        rows={rows}
        spellCheck={false}
        aria-describedby={`${id}-hint`}
        value={text}
        onPaste={paste}
        onChange={(event) => change(event.target.value)}
      />
      <div className={field.hint} id={`${id}-hint`}>
        A site on each line: name, depth in {unitName('depth', units)}, and if you like latitude, longitude
        and notes, as cells of a spreadsheet or with commas between; under headings also levels, briefing,
        plan B, least depth limit and not for. Waypoints (GPX) and placemarks (KML) can be read too.
      </div>
    </div>
  );
}

/** In the place of a text that is too long to be shown. */
function TooLong({ label, clear }: { readonly label: string; readonly clear: () => void }): ReactNode {
  return (
    <div role="group" aria-label={label}>
      <p>This list is read, and too long to be shown here.</p>
      <button type="button" className="linked" onClick={clear}>
        Clear the list
      </button>
    </div>
  );
}

/** So many are told in full; the rest by number, so that a wrong file does not fill the sheet. */
const TOLD = 12;

function Troubles({ read }: { readonly read: ReadSiteList }): ReactNode {
  const { troubles } = read;
  return (
    <div role="status">
      {troubles.length === 0 ? null : (
        <ul className={styles.troubles}>
          {troubles.slice(0, TOLD).map((trouble) => (
            <li key={`${trouble.where}${trouble.what}`}>
              {trouble.where === '' ? '' : `${capital(trouble.where)}: `}
              {trouble.what} {trouble.mend}
            </li>
          ))}
          {troubles.length > TOLD ? <li>And {troubles.length - TOLD} more.</li> : null}
        </ul>
      )}
    </div>
  );
}

function Rows(props: {
  readonly list: SiteList;
  readonly read: ReadSiteList;
  readonly change: (list: SiteList) => void;
}): ReactNode {
  const { list, read, change } = props;
  const setDepth = (index: number, depthM: number): void =>
    change({ ...list, depthsM: { ...list.depthsM, [index]: depthM } });
  const setWanted = (index: number, isWanted: boolean): void =>
    change({ ...list, wanted: { ...list.wanted, [index]: isWanted } });
  return (
    <table className={styles.rows}>
      <caption className="unseen">Sites of the list</caption>
      <thead>
        <tr>
          <th scope="col">Add</th>
          <th scope="col">Name</th>
          <th scope="col">Depth</th>
          <th scope="col">Position and notes</th>
        </tr>
      </thead>
      <tbody>
        {read.sites.map((site) => (
          <Row key={site.index} site={site} setDepth={setDepth} setWanted={setWanted} />
        ))}
      </tbody>
    </table>
  );
}

function Row(props: {
  readonly site: ListedSite;
  readonly setDepth: (index: number, depthM: number) => void;
  readonly setWanted: (index: number, isWanted: boolean) => void;
}): ReactNode {
  const { site, setDepth, setWanted } = props;
  const settings = useDesk((state) => state.settings);
  const { units } = settings;
  const { index, draft, depthM, isAsked, isWanted, isKnown } = site;
  const about = [positionText(draft.position), draft.notes].filter((text) => text !== '').join('. ');
  return (
    <tr className={isWanted ? '' : styles.left}>
      <td>
        <input
          type="checkbox"
          aria-label={`Add ${draft.name}`}
          checked={isWanted}
          onChange={(event) => setWanted(index, event.target.checked)}
        />
      </td>
      <th scope="row">
        {draft.name}
        {isKnown ? <span className="soft"> is there already</span> : null}
      </th>
      <td>
        {isAsked ? (
          <Field<number | null>
            label={`Depth of ${draft.name}`}
            value={depthM}
            show={(value) => (value === null ? '' : depthText(value, units))}
            parse={(text) => parseFigure(text, 'depth', units)}
            step={(value, by) => (value ?? 0) + fromUnit(by, 'depth', units)}
            commit={(value) => {
              if (value === null) return undefined;
              const trouble = numberTrouble('siteDepthM', value);
              if (trouble) {
                return failure({ kind: 'invalid', where: '', ...worded(trouble, wordsIn(settings)) });
              }
              setDepth(index, value);
              return undefined;
            }}
          />
        ) : depthM === null ? null : (
          depthText(depthM, units)
        )}
        {isAsked && depthM === null && isWanted ? (
          <Missing suggestion={draft.suggestion} name={draft.name} take={(m) => setDepth(index, m)} />
        ) : null}
      </td>
      <td className="soft">{about}</td>
    </tr>
  );
}

const WHY: Readonly<Record<DepthSuggestion['from'], string>> = {
  elevation: 'The list has a height alone, and receivers err by metres.',
  several: 'The list says several; this is the deepest.',
};

/** That a depth is missing, and where the list lets one be guessed, that guess to confirm or to type over. */
function Missing(props: {
  readonly suggestion: DepthSuggestion | undefined;
  readonly name: string;
  readonly take: (depthM: number) => void;
}): ReactNode {
  const { suggestion, name, take } = props;
  const units = useDesk(({ settings }) => settings.units);
  if (!suggestion) return <span className="care">The list does not say it.</span>;
  const depth = depthText(suggestion.depthM, units);
  return (
    <span className="care">
      {WHY[suggestion.from]}{' '}
      <button
        type="button"
        className="linked"
        aria-label={`Use ${depth} for ${name}`}
        onClick={() => take(suggestion.depthM)}
      >
        Use {depth}
      </button>
    </span>
  );
}
