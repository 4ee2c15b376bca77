import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { SetsideError } from '../base/index.ts';

/**
 * Claims a home for this process and gives back what ends the claim.
 *
 * The claim is the system's own lock on `station.lock`, held through SQLite, which Node has no call for. It ends with
 * the process, so that nothing stale can be left after `kill -9` or power loss; two claims in one process exclude
 * each other too. `station.pid` beside it says in plain text who holds it and is never trusted.
 * Throws `home-in-use`.
 */
export function lockHome(home: string): () => void {
  const lock = new Database(join(home, 'station.lock'), { timeout: 0 });
  try {
    lock.exec('BEGIN EXCLUSIVE');
  } catch (cause) {
    lock.close();
    throw new SetsideError('home-in-use', `the home ${home} is in use by another station${holder(home)}`, {
      cause,
      cure: 'End that station, or choose another home with --home.',
    });
  }
  writeFileSync(join(home, 'station.pid'), `${process.pid}\n`);
  return () => lock.close();
}

function holder(home: string): string {
  try {
    const pid = readFileSync(join(home, 'station.pid'), 'utf8').trim();
    return /^\d{1,10}$/.test(pid) ? ` (process ${pid})` : '';
  } catch {
    return '';
  }
}
