import { type ChildProcess, spawn } from 'node:child_process';

/** Keeps the computer from sleeping for as long as it is held. */
export interface Inhibitor {
  /** Starts holding. `failed` is called, later and at most once, where the system has no way to. */
  hold(failed: () => void): void;
  letGo(): void;
}

/** After this long without a camera the computer may sleep: longer than the pause for another set-up. */
export const awakeAfterFrameMs = 15 * 60_000;

const checkMs = 30_000;

/**
 * Holds the inhibitor while `busy` says so, looked at twice a minute and at once. Gives what ends it. A system without
 * a way is told once and not asked again.
 */
export function keepAwake(inhibitor: Inhibitor, busy: () => boolean, unable: () => void): () => void {
  let holding = false;
  let possible = true;
  const look = (): void => {
    const wanted = possible && busy();
    if (wanted === holding) return;
    holding = wanted;
    if (!wanted) {
      inhibitor.letGo();
      return;
    }
    inhibitor.hold(() => {
      if (possible) unable();
      possible = false;
      holding = false;
    });
  };
  look();
  const timer = setInterval(look, checkMs);
  timer.unref();
  return () => {
    clearInterval(timer);
    if (holding) inhibitor.letGo();
    holding = false;
  };
}

/**
 * The system's own way: systemd-inhibit (Linux), caffeinate (macOS), SetThreadExecutionState by PowerShell (Windows).
 * Each is a program that holds until it ends, and ends with the station at the latest.
 */
export function systemInhibitor(platform: NodeJS.Platform = process.platform): Inhibitor {
  let child: ChildProcess | null = null;
  return {
    hold: (failed) => {
      const started = startHolder(platform);
      if (started === null) {
        failed();
        return;
      }
      child = started;
      started.once('error', failed);
      started.once('exit', () => {
        // Ended although nobody let go: there is no session to inhibit, a container for one.
        if (child === started) failed();
      });
    },
    letGo: () => {
      const held = child;
      child = null;
      held?.stdin?.end();
      held?.kill();
    },
  };
}

/** Null where nothing can be started now: where files cannot be opened any more, spawning throws at once. */
function startHolder(platform: NodeJS.Platform): ChildProcess | null {
  const [command, args] = holder(platform);
  try {
    return spawn(command, args, { stdio: ['pipe', 'ignore', 'ignore'], windowsHide: true });
  } catch {
    return null;
  }
}

/** `cat` and `Read-Host` end when our end of their input does, so nothing outlives a station that was killed. */
function holder(platform: NodeJS.Platform): [string, string[]] {
  const why = 'Frames are arriving from a camera';
  if (platform === 'darwin') return ['caffeinate', ['-i', 'cat']];
  if (platform === 'win32') {
    const script =
      '$s = Add-Type -PassThru -Name Power -MemberDefinition \'[DllImport("kernel32.dll")] public static extern uint SetThreadExecutionState(uint f);\'; ' +
      '[void]$s::SetThreadExecutionState([uint32]"0x80000001"); [void][Console]::In.ReadToEnd()';
    return ['powershell', ['-NoProfile', '-NonInteractive', '-Command', script]];
  }
  return ['systemd-inhibit', ['--what=idle:sleep', '--who=Setside', `--why=${why}`, 'cat']];
}
