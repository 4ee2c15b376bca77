import { dataTroubles } from './causes/data-ways.ts';
import { diskTroubles } from './causes/disk.ts';
import { doorTroubles, passiveTaken } from './causes/doors.ts';
import { encryptionTroubles } from './causes/encryption.ts';
import { refusedLogIns } from './causes/log-ins.ts';
import { addressTwice, otherNetwork, tunnelTookRoute } from './causes/networks.ts';
import { addressChanged, addressDealtOut, noAddress } from './causes/own-address.ts';
import { keptApart, nothingCame, notThere } from './causes/silence.ts';
import { ownFirewall } from './causes/walls.ts';
import { weakLine } from './causes/weakness.ts';
import type { LineFacts } from './facts.ts';
import type { LineFinding } from './shapes.ts';

const weights = ['shut', 'weak', 'note'] as const;
const surenesses = ['certain', 'likely', 'possible'] as const;

/** Each looks at the facts for one kind of trouble. */
const causes: readonly ((facts: LineFacts) => readonly LineFinding[])[] = [
  noAddress,
  addressChanged,
  doorTroubles,
  ownFirewall,
  passiveTaken,
  tunnelTookRoute,
  refusedLogIns,
  encryptionTroubles,
  dataTroubles,
  otherNetwork,
  addressTwice,
  diskTroubles,
  weakLine,
  notThere,
  keptApart,
  nothingCame,
  addressDealtOut,
];

/** Everything that is found wrong, the gravest and surest first; of the same thing, what is said of a camera alone. */
export function diagnose(facts: LineFacts): readonly LineFinding[] {
  const findings = causes.flatMap((cause) => cause(facts));
  const rank = ({ weight, sure }: LineFinding): number =>
    weights.indexOf(weight) * surenesses.length + surenesses.indexOf(sure);
  return findings
    .filter((one) => one.camera !== null || !findings.some((other) => isOfCamera(other, one)))
    .sort((one, other) => rank(one) - rank(other));
}

/** A camera has run into what is known of everybody: said once, with the camera's own evidence. */
function isOfCamera(other: LineFinding, one: LineFinding): boolean {
  return other.code === one.code && other.camera !== null && one.code === 'line-check.passive-shut';
}
