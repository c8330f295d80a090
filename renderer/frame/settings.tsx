import type { CsvStyle } from '../../core/formats/delimited';
import { csvStyle } from '../figures/csv-style';
import { percentText } from '../figures/format';
import type { ReactNode } from 'react';
import { changeSettings, closeOverlay } from '../actions/view';
import { Choice } from '../parts/choice';
import { Dialog } from '../parts/dialog';
import { useDesk } from '../store/store';
import styles from './details.module.css';

const TEXT_SCALES = [0.85, 1, 1.15, 1.3, 1.5, 1.75, 2];

/** Two cells as they stand in a table. */
function example({ separator, decimal }: CsvStyle): string {
  return `18${decimal}5${separator}40`;
}

export function SettingsSheet(): ReactNode {
  const settings = useDesk((state) => state.settings);
  const scales = TEXT_SCALES.includes(settings.textScale)
    ? TEXT_SCALES
    : [...TEXT_SCALES, settings.textScale];
  return (
    <Dialog title="Settings" onClose={closeOverlay}>
      <div className={styles.details}>
        <Choice
          label="Units"
          value={settings.units}
          options={[
            { value: 'metric', label: 'Metres, bar, litres' },
            { value: 'imperial', label: 'Feet, psi, cubic feet' },
          ]}
          commit={(units) => changeSettings({ units })}
        />
        <Choice
          label="Clock"
          value={settings.clock}
          options={[
            { value: '24h', label: '13:10' },
            { value: '12h', label: '1:10 pm' },
          ]}
          commit={(clock) => changeSettings({ clock })}
        />
        <Choice
          label="Dates"
          value={settings.dates}
          options={[
            { value: 'dmy', label: '31/12/2027' },
            { value: 'mdy', label: '12/31/2027' },
            { value: 'ymd', label: '2027-12-31' },
          ]}
          commit={(dates) => changeSettings({ dates })}
        />
        <Choice
          label="Tables (CSV)"
          value={settings.tables}
          options={[
            { value: 'system', label: `Same as the system: ${example(csvStyle({ tables: 'system' }))}` },
            { value: 'commas', label: `Commas: ${example(csvStyle({ tables: 'commas' }))}` },
            { value: 'semicolons', label: `Semicolons: ${example(csvStyle({ tables: 'semicolons' }))}` },
          ]}
          commit={(tables) => changeSettings({ tables })}
        />
        <Choice
          label="Look"
          value={settings.look}
          options={[
            { value: 'system', label: 'Same as the system' },
            { value: 'light', label: 'Light paper' },
            { value: 'cabin', label: 'Cabin at night' },
          ]}
          commit={(look) => changeSettings({ look })}
        />
        <Choice
          label="Text size"
          value={String(settings.textScale)}
          options={scales.map((scale) => ({ value: String(scale), label: percentText(scale, 'near') }))}
          commit={(scale) => changeSettings({ textScale: Number(scale) })}
        />
      </div>
      <p className="soft">
        Settings stay on this computer. Rates, water and limits belong to the trip and its divers, and travel
        with the file.
      </p>
    </Dialog>
  );
}
