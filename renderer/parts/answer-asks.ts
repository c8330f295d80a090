/** The worker's side of work beside the window: hears what is asked, says how far it is and what came of it. */
import type { Asked, Progress, Reply } from './work-messages';

/**
 * Answers each ask with what `work` makes of it; what it throws is told as a fault, and the next ask is heard all
 * the same.
 * @param transfer what of an answer is handed over rather than copied
 */
// Named though used once: it is what the asking side sends.
// oxlint-disable-next-line typescript/no-unnecessary-type-parameters
export function answerAsks<Ask, Answer>(
  work: (ask: Ask, progress: Progress) => Answer | Promise<Answer>,
  transfer: (answer: Answer) => Transferable[] = () => [],
): void {
  const say = (reply: Reply<Answer>, handedOver: Transferable[] = []): void => {
    self.postMessage(reply, { transfer: handedOver });
  };
  self.addEventListener('message', ({ data: { id, ask } }: MessageEvent<Asked<Ask>>) => {
    const answer = async (): Promise<void> => {
      try {
        const made = await work(ask, (done, total) => say({ id, kind: 'progress', done, total }));
        say({ id, kind: 'answer', answer: made }, transfer(made));
      } catch (error) {
        say({ id, kind: 'fault', message: error instanceof Error ? error.message : String(error) });
      }
    };
    void answer();
  });
}
