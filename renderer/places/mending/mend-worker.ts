/** Looks for what mends a trip beside the window, so that nothing stutters; the window ends it to cancel. */
import { mendings } from '../../../core/proposal/mend/proposals';
import { answerAsks } from '../../parts/answer-asks';
import type { MendAsk, MendFound } from './mend-job';

answerAsks<MendAsk, MendFound>(({ trip, request }, progress) => mendings(trip, request, progress));
