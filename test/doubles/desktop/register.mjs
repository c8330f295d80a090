/** Lets `electron` mean the double, in this process alone. */
import { register } from 'node:module';

const double = new URL('./electron.ts', import.meta.url).href;
const hooks = `export async function resolve(specifier, context, next) {
  return next(specifier === 'electron' ? ${JSON.stringify(double)} : specifier, context);
}`;
register(`data:text/javascript,${encodeURIComponent(hooks)}`);
