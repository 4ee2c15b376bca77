/**
 * What nobody but the operator is told, wherever it stands in an answer or event: passwords and log-ins, folders of this
 * computer, addresses of cameras. Found by name, so that a new answer is covered before anybody thinks of it.
 */
const blanks: ReadonlyMap<string, unknown> = new Map<string, unknown>([
  ['password', null],
  ['user', ''],
  ['home', ''],
  ['folder', ''],
  ['path', ''],
  ['address', ''],
  ['addresses', []],
  ['allow', []],
  ['keys', []],
  ['hostKeys', []],
  ['log', []],
]);

/** Only among the figures of a finding, where these are folders and addresses too; a job has a `place` of its own. */
const blankArgs: ReadonlySet<string> = new Set(['place', 'file', 'local', 'command', 'message', 'other']);

/** The same value without secrets, of the same shape; what it is made from is left as it is. */
export function withoutSecrets(value: unknown): unknown {
  return strip(value, false);
}

function strip(value: unknown, inArgs: boolean): unknown {
  if (Array.isArray(value)) return value.map((entry) => strip(entry, false));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([name, held]) => {
      if (blanks.has(name) && held !== null) return [name, blanks.get(name)];
      if (inArgs && blankArgs.has(name)) return [name, ''];
      return [name, strip(held, name === 'args')];
    }),
  );
}
