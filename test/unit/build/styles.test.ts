import { describe, expect, it } from 'vitest';
import { styleBreaches, stylesOfWindow, type StyleFile } from '../../../build/checks/styles';

const file = (path: string, text: string): StyleFile => ({ path, text });
const whats = (styles: readonly StyleFile[], code: readonly StyleFile[]) =>
  styleBreaches(styles, code).map(({ where, what }) => `${where}: ${what}`);

describe('styleBreaches', () => {
  it('finds none in the window', () => {
    const { styles, code } = stylesOfWindow();
    expect(styles.length).toBeGreaterThan(10);
    expect(code.length).toBeGreaterThan(100);
    expect(styleBreaches(styles, code)).toEqual([]);
  });

  it('takes a module with its component, and what is everybody’s', () => {
    expect(
      whats(
        [
          file('renderer/look/base.css', '.soft { color: red; }'),
          file('renderer/a/b.module.css', '.row:hover > td, .row { color: red; }'),
        ],
        [
          file(
            'renderer/a/b.tsx',
            "import styles from './b.module.css';\n<p className={`${styles.row} soft`} />",
          ),
        ],
      ),
    ).toEqual([]);
  });

  it('takes the name of a file for no class, where it is imported by it', () => {
    const module = file('renderer/a/ticks.module.css', '.row {}');
    const code = [file('renderer/a/a.tsx', "import ticks from './ticks.module.css';\nticks.row;")];
    expect(whats([module], code)).toEqual([]);
  });

  it('takes a class of everybody’s that a module names as such for none of its own', () => {
    const module = file('renderer/a/note.module.css', '.body > :global(.soft) { margin: 0; }');
    const code = [
      file(
        'renderer/a/a.tsx',
        "import note from './note.module.css';\nimport other from './other-note.module.css';\nnote.body;",
      ),
    ];
    expect(whats([module], code)).toEqual([]);
  });

  it('refuses a file that is global', () => {
    expect(whats([file('renderer/a/b.css', 'p { margin: 0; }')], [])).toEqual([
      'renderer/a/b.css: is global: name it x.module.css beside its component',
    ]);
  });

  it('refuses a class that two files style bare, whichever was loaded last', () => {
    const styles = [
      file('renderer/look/a.css', '.ticks { gap: 0; }'),
      file('renderer/look/b.css', '@media print {\n  .ticks label { gap: 1px; }\n}\n.b .own { gap: 0; }'),
      file('renderer/look/c.css', '.c .ticks { gap: 0; }'),
    ];
    const code = [file('renderer/a/a.tsx', '<p className="ticks b c own" />')];
    expect(whats(styles, code)).toEqual([
      'renderer/look/a.css, renderer/look/b.css: .ticks is styled in each of them',
    ]);
  });

  it('refuses a class that nobody uses, though not one whose name is put together', () => {
    const styles = [
      file('renderer/look/base.css', '.gone {} .head-depth {} .recharts-tooltip {} /* .old */'),
    ];
    expect(whats(styles, [file('renderer/a/a.tsx', 'className={`head-${sort}`}')])).toEqual([
      'renderer/look/base.css: .gone is used by nobody',
    ]);
  });

  it('refuses what a module has too much or too little', () => {
    expect(
      whats(
        [file('renderer/a/b.module.css', '.row {} .left {}')],
        [file('renderer/a/b.tsx', "import css from './b.module.css';\ncss.row; css['column-head'];")],
      ),
    ).toEqual([
      'renderer/a/b.module.css: .left is used by nobody',
      'renderer/a/b.tsx: asks renderer/a/b.module.css for .column-head, which is not there',
    ]);
  });
});
