/** How a site is dived, what is said of it before, where to go instead, and who may not dive it. */
import type { ReactNode } from 'react';
import type { Site } from '../../../core/document/types';
import { levelsShown, readLevels } from '../../../core/formats/levels-text';
import type { Level } from '../../../core/profile';
import { worded } from '../../../core/words/reader';
import { setSiteLevels, setSiteNotFor, setSiteText } from '../../actions/sites';
import { countText, depthText } from '../../figures/format';
import { parseFigure, type Parsed } from '../../figures/parse';
import { wordsIn } from '../../figures/reader';
import { Field } from '../../parts/field';
import { NotesField } from '../../parts/notes-field';
import { useDesk } from '../../store/store';
import styles from './site-details.module.css';

/** What of it is told already, for the line of the table: "3 levels, plan B". */
export function detailsText({ levels, briefing, planB, notFor }: Site): string {
  return [
    ...(levels ? [levels.length === 1 ? 'one level' : `${countText(levels.length)} levels`] : []),
    ...(briefing === undefined ? [] : ['briefing']),
    ...(planB === undefined ? [] : ['plan B']),
    ...(notFor ? ['not for everybody'] : []),
  ].join(', ');
}

export function SiteDetails({ site }: { readonly site: Site }): ReactNode {
  const settings = useDesk((state) => state.settings);
  const { units } = settings;
  const unit = units === 'imperial' ? 'ft' : 'm';
  const { id, name, notFor } = site;
  const parseLevels = (text: string): Parsed<readonly Level[]> => {
    const levels = readLevels(text, unit);
    return 'what' in levels
      ? { ok: false, ...worded(levels, wordsIn(settings)) }
      : { ok: true, value: levels };
  };
  return (
    <div className={styles.details} role="group" aria-label={`About ${name}`}>
      <Field<readonly Level[]>
        label="Levels, depth/min"
        value={site.levels ?? []}
        show={(levels) => levelsShown(levels, unit)}
        parse={parseLevels}
        commit={(levels) => setSiteLevels(id, levels)}
        words={units}
        hint={unit === 'ft' ? 'as 100/15, 60/15, 30/15' : 'as 30/15, 20/15, 10/15'}
      />
      <Field<number | null>
        label="Least depth limit"
        value={notFor?.depthLimitUnderM ?? null}
        show={(depthM) => (depthM === null ? '' : depthText(depthM, units, 'up'))}
        parse={(text) => (text.trim() === '' ? { ok: true, value: null } : parseFigure(text, 'depth', units))}
        commit={(depthLimitUnderM) => setSiteNotFor(id, { depthLimitUnderM })}
        words={units}
        hint="a diver’s limit, to dive here"
      />
      <Field<readonly string[]>
        label="Not for"
        value={notFor?.certifications ?? []}
        show={(certifications) => certifications.join(', ')}
        parse={(text) => ({
          ok: true,
          value: text
            .split(/[,;]/)
            .map((part) => part.trim())
            .filter((part) => part !== ''),
        })}
        commit={(certifications) => setSiteNotFor(id, { certifications })}
        hint="certifications, as under Party"
      />
      <NotesField
        label="Note for the briefing"
        value={site.briefing ?? ''}
        commit={(text) => setSiteText(id, 'briefing', text)}
      />
      <NotesField label="Plan B" value={site.planB ?? ''} commit={(text) => setSiteText(id, 'planB', text)} />
    </div>
  );
}
