import { memo, type ReactNode } from 'react';
import type { Caution } from '../../../../core/cautions/caution';
import { toldTogether } from '../../../../core/cautions/told-together';
import { capital } from '../../../../core/words/reader';
import { said } from '../../../../core/words/said';
import { countSaid } from '../../../../core/words/terms';
import { CautionItems } from '../../../parts/caution-list';
import { useWords } from '../../../parts/use-words';
import { memo as remembered } from '../../../store/memo';
import { entriesOf, selectCautions, selectChosenDive, shownEntry } from '../../../store/selectors';
import { useDesk, type Desk } from '../../../store/store';
import { Outcome } from './outcome';
import { useCardSource } from './use-card-source';
import { Who } from './who';
import styles from './card.module.css';

function chosenId(state: Desk): string {
  return selectChosenDive(state)?.id ?? '';
}

const cautionsOfDive = remembered((cautions: readonly Caution[], diveId: string): readonly Caution[] =>
  cautions.filter((caution) => caution.diveId === diveId),
);

function useCautions(): readonly Caution[] {
  return useDesk((state) => cautionsOfDive(selectCautions(state), chosenId(state)));
}

/** So many stand open; a party of twelve can raise a page of them. */
const SHOWN = 4;

/** What is read of the chosen dive below its figures: the room of each, cautions, and all that comes of it. */
export const DiveReading = memo(function DiveReading(): ReactNode {
  const diveId = useDesk(chosenId);
  const entries = useDesk((state) => entriesOf(state, diveId));
  const entry = useDesk((state) => shownEntry(state, diveId));
  const source = useCardSource(entry);
  return (
    <>
      {entry ? <Who entries={entries} shown={entry} /> : null}
      <Cautions />
      {source ? <Outcome source={source} /> : null}
    </>
  );
});

function Cautions(): ReactNode {
  const trip = useDesk((state) => state.trip);
  const cautions = useCautions();
  if (cautions.length === 0) return null;
  return (
    <div id="cautions-of-dive" tabIndex={-1} className={styles.cautions}>
      <CautionItems cautions={cautions} trip={trip} open={SHOWN} />
    </div>
  );
}

/** The gravest of the dive's cautions by number, beside its date: what is below must not be missed. */
export const CautionCount = memo(function CautionCount(): ReactNode {
  const words = useWords();
  const told = toldTogether(useCautions());
  const stops = told.filter(({ caution }) => caution.severity === 'stop').length;
  const changes = told.filter(({ caution }) => caution.severity === 'change').length;
  if (stops + changes === 0) return null;
  return (
    <a href="#cautions-of-dive">
      {capital(
        words(stops > 0 ? said`${countSaid(stops)} over a limit` : said`${countSaid(changes)} to adjust`),
      )}
    </a>
  );
});
