import { fileURLToPath } from 'node:url';
import type { ExifTool } from 'exiftool-vendored';

/** Ours, which ends the tool with its station; none on Windows, where there are no parents to look for. */
function configFile(): string {
  if (process.platform === 'win32') return '';
  // The same folder seen from the sources and from the built tree.
  return fileURLToPath(new URL('../../src/workers/exiftool-config.pl', import.meta.url));
}

/**
 * One ExifTool process, started at its first question, ended when idle, and by itself when the station is gone. No configuration
 * file but ours is loaded, since that is Perl code found in the working or home directory. The library is loaded here: commands that
 * ask nothing do without its eighty modules.
 */
export async function startExifTool(taskMs: number, idleMs: number): Promise<ExifTool> {
  const { ExifTool: Tool } = await import('exiftool-vendored');
  return new Tool({
    maxProcs: 1,
    taskTimeoutMillis: taskMs,
    maxIdleMsPerProcess: idleMs,
    // The caller knows whether a second try is worth it.
    taskRetries: 0,
    exiftoolArgs: ['-config', configFile(), '-stay_open', 'True', '-@', '-'],
  });
}
