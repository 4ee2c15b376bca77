/** Preloaded (`--import`): writes the address of each module and file that the process loads into the file `LOADED`. */
import { appendFileSync } from 'node:fs';
import Module, { register } from 'node:module';

const note = (address) => appendFileSync(process.env.LOADED, `${address}\n`);
const byRequire = Module._extensions['.js'];
Module._extensions['.js'] = (module, file) => {
  note(file);
  byRequire(module, file);
};
const hook = `import { appendFileSync } from 'node:fs';
export const load = (url, context, next) => (appendFileSync(process.env.LOADED, url + '\\n'), next(url, context));`;
register(`data:text/javascript,${encodeURIComponent(hook)}`);
