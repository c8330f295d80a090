/** Reads recorded dives beside the window: a log of many years takes seconds. */
import { readRecorded } from '../../../../core/formats/recorded/read-recorded';
import type { RecordedReading } from '../../../../core/formats/recorded/recorded-dive';
import { wordsIn } from '../../../figures/reader';
import { answerAsks } from '../../../parts/answer-asks';
import type { RecordedAsk } from './recorded-job';

answerAsks<RecordedAsk, RecordedReading>(({ text, ascentMPerMin, viewer }) =>
  readRecorded(text, ascentMPerMin, wordsIn(viewer)),
);
