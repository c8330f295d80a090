/** Property tests: the seed is printed with every failure and fixed where CI is set, so that a red run can be had again. */
import fc from 'fast-check';

fc.configureGlobal({
  ...(process.env['CI'] ? { seed: 20_270_306 } : {}),
  interruptAfterTimeLimit: 170_000,
  markInterruptAsFailure: true,
  includeErrorInReport: true,
});
