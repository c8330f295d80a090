import { describe, expect, it } from 'vitest';
import { bundledScript } from '../../../../renderer/parts/begin-worker';

describe('bundledScript', () => {
  it.each([
    [
      '/assets/slate-worker-D4WE_3O-.js',
      'http://127.0.0.1:5000/',
      'http://127.0.0.1:5000/assets/slate-worker-D4WE_3O-.js',
    ],
    ['/assets/a-1.js', 'carryover://app/index.html', 'carryover://app/assets/a-1.js'],
  ])('takes %s of %s', (url, page, script) => {
    expect(bundledScript(url, page)).toBe(script);
  });

  it.each([
    'https://elsewhere.example/assets/a-1.js',
    '//elsewhere.example/assets/a-1.js',
    'http://127.0.0.1:5001/assets/a-1.js',
    'data:text/javascript,1',
    'blob:http://127.0.0.1:5000/assets/a-1.js',
    '/assets/../a-1.js',
    '/assets/a-1.txt',
    '/a-1.js',
    '/assets/b/a-1.js',
  ])('refuses %s', (url) => {
    expect(() => bundledScript(url, 'http://127.0.0.1:5000/')).toThrow('no script of its own');
  });
});
