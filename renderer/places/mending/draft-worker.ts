/** Drafts the days ahead again beside the window. */
import { draftedAhead, type DraftedAhead } from '../../../core/proposal/drafted-ahead';
import { answerAsks } from '../../parts/answer-asks';
import type { DraftAsk } from './mend-job';

answerAsks<DraftAsk, DraftedAhead>(({ trip, doneCount, depthUnit }) =>
  draftedAhead(trip, doneCount, depthUnit),
);
