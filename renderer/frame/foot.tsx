import type { ReactNode } from 'react';
import { CommandButton } from '../parts/command-button';

/** The line that stands on every page of this product. */
export function Foot(): ReactNode {
  return (
    <footer className="foot">
      <span>
        A plan is not a dive. Stay within your training, analyse every cylinder yourself, follow your dive
        computer, the operator and local rules. Models and tables do not prevent decompression sickness or
        oxygen toxicity.
      </span>
      <CommandButton id="help.about" className="plain">
        About
      </CommandButton>
    </footer>
  );
}
