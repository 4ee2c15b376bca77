import { readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { LoginFacts } from '../../line/index.ts';

/** HOME/entered.json: by which address each camera came last, so that a start elsewhere can say what is wrong on it. */
const fileName = 'entered.json';

/**
 * What was entered on each camera as the station's address: the one it came to last. Derived from log-ins; losing it costs
 * a word about a changed address.
 */
export class EnteredBook {
  readonly #file: string;
  readonly #logins: Map<string, LoginFacts>;
  readonly #failed: (thrown: unknown) => void;
  #writing: Promise<void> = Promise.resolve();

  private constructor(file: string, logins: Map<string, LoginFacts>, failed: (thrown: unknown) => void) {
    this.#file = file;
    this.#logins = logins;
    this.#failed = failed;
  }

  static async open(home: string, failed: (thrown: unknown) => void): Promise<EnteredBook> {
    const file = join(home, fileName);
    const text = await readFile(file, 'utf8').catch(() => '{}');
    return new EnteredBook(file, parsed(text), failed);
  }

  of(camera: string): LoginFacts | null {
    return this.#logins.get(camera) ?? null;
  }

  /** A camera logged in; written only where it says something new of its address or ours. */
  note(camera: string, login: LoginFacts): void {
    const before = this.#logins.get(camera);
    this.#logins.set(camera, login);
    if (before?.local === login.local && before.address === login.address) return;
    this.#writing = this.#writing.then(() => this.#write()).catch(this.#failed);
  }

  async close(): Promise<void> {
    await this.#writing;
  }

  async #write(): Promise<void> {
    await writeFile(`${this.#file}.new`, `${JSON.stringify(Object.fromEntries(this.#logins))}\n`, {
      mode: 0o600,
    });
    await rename(`${this.#file}.new`, this.#file);
  }
}

function parsed(text: string): Map<string, LoginFacts> {
  const logins = new Map<string, LoginFacts>();
  try {
    for (const [camera, login] of Object.entries(JSON.parse(text) as object)) {
      if (isLogin(login)) logins.set(camera, login);
    }
  } catch {
    // A log that was cut or overwritten by hand: it fills again.
  }
  return logins;
}

function isLogin(value: unknown): value is LoginFacts {
  if (typeof value !== 'object' || value === null) return false;
  const { local, address, atMs } = value as Partial<Record<keyof LoginFacts, unknown>>;
  return typeof local === 'string' && typeof address === 'string' && typeof atMs === 'number';
}
