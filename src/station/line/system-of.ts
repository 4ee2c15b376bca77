import type { LineSystem } from '../../line/index.ts';

/** The system in the words of the line check. */
export function systemOf(platform: NodeJS.Platform): LineSystem {
  switch (platform) {
    case 'linux':
      return 'linux';
    case 'darwin':
      return 'macos';
    case 'win32':
      return 'windows';
    default:
      return 'other';
  }
}
