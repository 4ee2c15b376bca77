import { type Command, InvalidArgumentError, Option } from 'commander';
import { type Camera, type CameraAccess, protocols } from '../station/index.ts';
import { keysOf } from './key-option.ts';
import { rowTimeUs } from './number-options.ts';

/** What a person may say of a camera's way in. */
export interface AccessFlags {
  readonly allow?: string[];
  readonly anywhere?: boolean;
  readonly protocol?: Camera['protocols'];
  readonly key?: string[];
  readonly dropKey?: string[];
  readonly rowTime?: number | null;
}

/** For a camera that is new. */
export function withAccess(command: Command): Command {
  return command
    .addOption(
      new Option(
        '--allow <where>',
        'address, network (192.168.7.0/24) or hardware address it may come from (repeatable); these take the place of earlier ones',
      ).argParser(collect),
    )
    .addOption(new Option('--anywhere', 'it may come from everywhere').conflicts('allow'))
    .option(
      '--protocol <list>',
      `doors it may come in by, of ${protocols.join(', ')}; none for one that only comes by a watched folder`,
      protocolList,
    )
    .option('--key <key>', 'public key for SFTP to add: a .pub file, or its one line (repeatable)', collect);
}

/** For a camera that is there. */
export function withChanges(command: Command): Command {
  return withAccess(command)
    .option(
      '--row-time <us>',
      'microseconds from one row of its sensor to the next under the electronic shutter, so that stripes name the mains; none: not said. Its maker, or a test of it, tells how long a whole frame is read: divide that by its rows',
      rowTimeOf,
    )
    .option(
      '--drop-key <fingerprint>',
      'key that lets it in no more, as setside camera list shows it (repeatable)',
      collect,
    );
}

/** Rejects as `keysOf` does. */
export async function accessOf(flags: AccessFlags): Promise<CameraAccess> {
  const { allow, anywhere, protocol, key, dropKey, rowTime } = flags;
  return {
    ...(anywhere === true ? { allow: [] } : allow === undefined ? {} : { allow }),
    ...(protocol === undefined ? {} : { protocols: protocol }),
    ...(key === undefined ? {} : { addKeys: (await Promise.all(key.map(keysOf))).flat() }),
    ...(dropKey === undefined ? {} : { dropKeys: dropKey }),
    ...(rowTime === undefined ? {} : { rowTimeUs: rowTime }),
  };
}

function collect(text: string, earlier: readonly string[] = []): string[] {
  return [...earlier, text];
}

function rowTimeOf(text: string): number | null {
  return text.trim().toLowerCase() === 'none' ? null : rowTimeUs(text);
}

function protocolList(text: string): Camera['protocols'] {
  const chosen = text.split(',').map((word) => word.trim().toLowerCase());
  if (chosen.length === 1 && chosen[0] === 'none') return [];
  const known = protocols.filter((protocol) => chosen.includes(protocol));
  if (known.length === 0 || known.length !== new Set(chosen).size) {
    throw new InvalidArgumentError(`expected some of ${protocols.join(', ')}, or none; got "${text}"`);
  }
  return known;
}
