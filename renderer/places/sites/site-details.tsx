/** How a site is dived, what is said of it before, where to go instead, and who may not dive it. */
import type { ReactNode } from 'react';
import type { Site } from '../../../core/document/types';
import { levelsShown, readLevels } from '../../../core/formats/levels-text';
import type { Level } from '../../../core/profile';
import { worded } from '../../../core/words/reader';
import type { Water } from '../../../core/water';
import { tell } from '../../actions/edit';
import { setSiteLevels, setSiteNotFor, setSiteText, setSiteWater } from '../../actions/sites';
import { countText, depthText } from '../../figures/format';
import { parseFigure, type Parsed } from '../../figures/parse';
import { wordsIn } from '../../figures/reader';
import { waterChoices } from '../../figures/waters';
import { Choice } from '../../parts/choice';
import { Field } from '../../parts/field';
import { NotesField } from '../../parts/notes-field';
import { useDesk } from '../../store/store';
import styles from './site-details.module.css';

/** What of it is told already, for the line of the table: "3 levels, plan B". */
export function detailsText({ levels, briefing, planB, notFor, water }: Site): string {
  return [
    ...(water ? ['its own water'] : []),
    ...(levels ? [levels.length === 1 ? 'one level' : `${countText(levels.length)} levels`] : []),
    ...(briefing === undefined ? [] : ['briefing']),
    ...(planB === undefined ? [] : ['plan B']),
    ...(notFor ? ['not for everybody'] : []),
  ].join(', ');
}

type WaterChoice = 'trip' | 'gauge' | 'salt' | 'fresh' | 'other';

function waterOf(density: Water['density'] | undefined): WaterChoice {
  return density === undefined ? 'trip' : typeof density === 'number' ? 'other' : density;
}

export function SiteDetails({ site }: { readonly site: Site }): ReactNode {
  const settings = useDesk((state) => state.settings);
  const water = useDesk(({ trip }) => trip.water);
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
      <Field<number | null>
        label="Altitude"
        value={site.water?.altitudeM ?? null}
        show={(metres) => (metres === null ? '' : depthText(metres, units, 'near'))}
        parse={(text) => (text.trim() === '' ? { ok: true, value: null } : parseFigure(text, 'depth', units))}
        commit={(altitudeM) => setSiteWater(id, { altitudeM })}
        words={units}
        hint={`empty: as the trip, ${depthText(water.altitudeM, units, 'near')}`}
      />
      <Choice
        label="Water"
        value={waterOf(site.water?.density)}
        options={[
          { value: 'trip', label: 'As the trip' },
          ...waterChoices(units),
          ...(typeof site.water?.density === 'number'
            ? [{ value: 'other', label: `${site.water.density} kg/m³` } as const]
            : []),
        ]}
        commit={(density) => {
          if (density !== 'other') tell(setSiteWater(id, { density: density === 'trip' ? null : density }));
        }}
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
