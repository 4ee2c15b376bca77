import { addressFor } from '../address-for.ts';
import { addressUse, camerasMayEnter, isInNetwork, networkOf, type PlacedAddress } from '../addresses.ts';
import type { CameraFacts, LineFacts } from '../facts.ts';
import { fixAddressCommands } from '../fix-address.ts';
import type { Cure, LineFinding } from '../shapes.ts';
import { cure, found, seen } from './finding.ts';

/** A camera was given an address that this computer does not have any more. */
export function addressChanged(facts: LineFacts): readonly LineFinding[] {
  return facts.cameras.flatMap((camera) => {
    const gone = goneAddress(facts, camera);
    if (gone === null) return [];
    const mine = addressFor(facts, camera);
    const { name } = camera;
    const stays =
      mine !== null && isInNetwork(gone, networkOf(mine.address, mine.prefixBits))
        ? keepAddress(facts, mine, gone)
        : [];
    return [
      found(
        ['line-check.address-changed', 'shut', 'certain'],
        { address: gone, local: mine?.address ?? '' },
        {
          camera: name,
          evidence: [
            seen('address-gone', { camera: name, address: gone }),
            mine?.given === 'dealt-out' ? leaseOf(facts, mine) : null,
          ],
          cures: [
            mine === null ? null : cure('camera', 'enter-address', { camera: name, local: mine.address }),
            ...stays,
          ],
        },
      ),
    ];
  });
}

/** What was entered on the camera, where this computer has it no more; null where all is well or nothing is known. */
export function goneAddress(
  { interfaces }: Pick<LineFacts, 'interfaces'>,
  { login, ended }: Pick<CameraFacts, 'login' | 'ended'>,
): string | null {
  if (login === null || ended || addressUse(login.local) === 'loopback') return null;
  const isMine = interfaces.some(({ addresses }) => addresses.some(({ address }) => address === login.local));
  return isMine ? null : login.local;
}

/** An address that may be another one tomorrow. */
export function addressDealtOut(facts: LineFacts): readonly LineFinding[] {
  return camerasMayEnter(facts.interfaces)
    .filter(({ given }) => given === 'dealt-out')
    .map((mine) =>
      found(
        ['line-check.address-dealt-out', 'note', 'certain'],
        { address: mine.address },
        {
          evidence: [leaseOf(facts, mine)],
          cures: [...reserve(mine, mine.address), cure('station', 'fix-any')],
        },
      ),
    );
}

function leaseOf({ nowMs }: LineFacts, mine: PlacedAddress): ReturnType<typeof seen> {
  const args = { address: mine.address, interface: mine.interface.name };
  return seen(
    'lease',
    mine.leaseEndsMs === null ? args : { ...args, ms: Math.max(0, mine.leaseEndsMs - nowMs) },
  );
}

/** At the router, or on this computer, so that an address stays. */
function keepAddress({ system }: LineFacts, mine: PlacedAddress, address: string): readonly Cure[] {
  return [
    ...reserve(mine, address),
    cure('station', 'fix-address', { address }, fixAddressCommands(system, mine, address)),
  ];
}

/** Only where somebody deals out addresses: a router, or what gave this computer its own. */
function reserve(
  { given, interface: { hardware, gateway } }: PlacedAddress,
  address: string,
): readonly Cure[] {
  if (hardware === null || (gateway === null && given !== 'dealt-out')) return [];
  return [cure('network', 'reserve', { address, hardware, gateway: gateway ?? '' })];
}

/** No address that a camera could be given, or one that says that nobody deals out any. */
export function noAddress(facts: LineFacts): readonly LineFinding[] {
  const mine = camerasMayEnter(facts.interfaces);
  const own = facts.interfaces.flatMap(({ addresses }) => addresses.map(({ address }) => address));
  if (mine.length === 0) {
    const open = own.find((address) => address.includes('.') && addressUse(address) === 'public');
    // Who came in all the same, such as a stand-in on this computer, has a way that is open.
    const within = hasComeTo(facts, own);
    const weight = within ? 'note' : 'shut';
    const evidence = [within ? seen('came-within') : null];
    return open === undefined
      ? [
          found(
            ['line-check.no-network', weight, 'certain'],
            {},
            { evidence, cures: [cure('station', 'join-network')] },
          ),
        ]
      : [
          found(
            ['line-check.only-public', weight, 'certain'],
            { address: open },
            { evidence, cures: [cure('station', 'bind', { address: open })] },
          ),
        ];
  }
  return mine
    .filter(({ given, address }) => given === 'self' && addressUse(address) === 'link-local')
    .filter(({ interface: each }) =>
      each.addresses.every(
        ({ family, address }) => family === 'IPv6' || addressUse(address) === 'link-local',
      ),
    )
    .map(({ address, interface: { name } }) =>
      found(
        ['line-check.no-dhcp', mine.length > 1 ? 'note' : 'weak', 'likely'],
        { address, interface: name },
        { evidence: [seen('link-local')], cures: [cure('network', 'start-dhcp')] },
      ),
    );
}

/** Whether a camera has logged in since the start, by an address that this computer still has or that never goes. */
function hasComeTo({ lines, startedMs }: LineFacts, own: readonly string[]): boolean {
  return lines.some(({ atMs, finding: { code, args } }) => {
    const local = String(args.local ?? '');
    const isHere = own.includes(local) || addressUse(local) === 'loopback';
    return code === 'line.logged-in' && atMs >= startedMs && isHere;
  });
}
