/** The guide as its file has it, which is read on a forge as well: headings, paragraphs, steps and pictures. */
import { assert } from '../../../core/result';

export type GuideBlock =
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string; readonly isCaution: boolean }
  | { readonly kind: 'picture'; readonly text: string; readonly file: string }
  | { readonly kind: 'steps'; readonly steps: readonly string[] };

/**
 * Blocks of the guide.
 * @param markdown with blank lines between blocks; of Markdown only what the guide uses is known
 * @returns every block but the title
 */
export function guideBlocks(markdown: string): readonly GuideBlock[] {
  const [title, ...blocks] = markdown.trim().split(/\n{2,}/);
  assert(title?.startsWith('# ') === true, 'the guide begins with its title');
  return blocks.map((block): GuideBlock => {
    const picture = /^!\[([^\]]*)\]\(([\w-]+\.webp)\)$/.exec(block);
    if (picture) return { kind: 'picture', text: picture[1]!, file: picture[2]! };
    if (block.startsWith('## ')) return { kind: 'heading', text: block.slice(3) };
    if (block.startsWith('1. ')) {
      const steps = block.split(/\n(?=\d+\. )/).map((step) => step.replace(/^\d+\. /, ''));
      return { kind: 'steps', steps: steps.map((step) => step.replaceAll('\n', ' ')) };
    }
    const text = block.replaceAll('\n', ' ');
    return { kind: 'paragraph', text: text.replaceAll('**', ''), isCaution: text.startsWith('**') };
  });
}
