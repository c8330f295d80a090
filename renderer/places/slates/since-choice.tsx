import { useEffect, useState, type ReactNode } from 'react';
import { Choice } from '../../parts/choice';
import { clockText, dateText } from '../../figures/format';
import { useDesk } from '../../store/store';
import { choose, useChoices } from './choices';
import { earlierSaves, type EarlierSave, type SinceWish } from './since';

const USUAL = 'usual';

/** What a briefing tells the changes since: the last print or save unless an earlier save, or nothing, is chosen. */
export function SinceChoice(): ReactNode {
  const { since } = useChoices();
  const clock = useDesk(({ settings }) => settings.clock);
  const token = useDesk(({ keeping }) => keeping.token);
  const [saves, setSaves] = useState<readonly EarlierSave[]>([]);
  useEffect(() => {
    let isWanted = true;
    void earlierSaves(token).then((found) => {
      if (isWanted) setSaves(found);
    });
    return () => {
      isWanted = false;
    };
  }, [token]);
  const options = [
    { value: USUAL, label: 'The last print, else an earlier day' },
    ...saves.map(({ id, at }) => ({
      value: id,
      label: `Save of ${dateText(at, true)}, ${clockText(at, clock)}`,
    })),
    { value: 'opened', label: 'As it was opened here' },
    { value: 'nothing', label: 'Nothing: leave it out' },
  ];
  const isThere = options.some(({ value }) => value === since);
  return (
    <Choice
      label="Changed since"
      value={isThere ? since! : USUAL}
      options={options}
      commit={(value) => choose({ since: value === USUAL ? null : (value as SinceWish) })}
      wide
    />
  );
}
