/** Draws a plan beside the window, so that nothing stutters; the window ends it to cancel. */
import { drawRuns, drawShares } from '../../../core/sturdiness/sturdiness';
import { answerAsks } from '../../parts/answer-asks';
import type { SturdyAnswer, SturdyJob } from './sturdy-job';

answerAsks<SturdyJob, SturdyAnswer>(
  (job, progress) =>
    job.kind === 'runs'
      ? { kind: 'runs', part: drawRuns(job.trip, job.draw, job.from, job.to, progress) }
      : { kind: 'shares', shares: drawShares(job.trip, job.draw, job.names, progress) },
  (answer) => (answer.kind === 'runs' ? [answer.part.rooms.buffer] : []),
);
