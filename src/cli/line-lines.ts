import type { LineCheck, LineFinding, LineInterface } from '../contract/index.ts';
import { lineLabels, linePlaces, sentence, sizePhrase, spanPhrase, surePhrases } from '../words/index.ts';

/** What `setside line` prints: the word first, then what is wrong, then what was looked at. */
export function lineLines(check: LineCheck): string[] {
  return [
    inAWord(check),
    ...check.findings.flatMap(findingLines),
    '',
    ...check.interfaces.flatMap((each) => interfaceLines(each, Date.parse(check.at))),
    ...check.doors.map(
      ({ name, port, firewall }) =>
        `${name.toUpperCase().padEnd(8)}${port === null ? 'shut' : `port ${port}`}${wall(firewall)}`,
    ),
    `passive ports ${check.passive.from}-${check.passive.to}${wall(check.passive.firewall)}`,
    ...(check.links === null ? [] : [`links   port ${check.links.port}${wall(check.links.firewall)}`]),
    ...(check.mdns === null ? [] : [`name    ${check.mdns}`]),
    `disk    ${sizePhrase(check.disk.freeBytes)} free${speed(check.disk.writeBytesPerSecond)}`,
    ...check.cameras.map(
      ({ name, enter, bytesPerSecond }) =>
        `${name}: enter ${enter ?? 'nothing yet'} on it${speed(bytesPerSecond)}`,
    ),
  ];
}

/** Before a camera has come, nobody knows what lies between. */
function inAWord({ findings }: LineCheck): string {
  const count = (weight: LineFinding['weight']): string => {
    const places = findings.filter((each) => each.weight === weight).length;
    return places === 0 ? '' : places === 1 ? 'one place' : `${places} places`;
  };
  if (count('shut') !== '') return `The line is shut in ${count('shut')}.`;
  if (count('weak') !== '') return `The line is not shut, but needs a look in ${count('weak')}.`;
  const unproved = findings.some(({ code }) => code === 'line-check.nothing-came');
  return unproved ? lineLabels.openUnproved : 'The line is open.';
}

function findingLines({ weight, sure, cause, evidence, cures }: LineFinding): string[] {
  return [
    '',
    `${weight.toUpperCase()}: ${sentence(cause)} ${surePhrases[sure]}`,
    ...evidence.map((each) => `  ${sentence(each)}`),
    ...cures.flatMap(({ finding, commands, at }) => [
      `  -> ${sentence(finding)} (${linePlaces[at]})`,
      ...commands.map((command) => `     ${command}`),
    ]),
  ];
}

function interfaceLines({ name, kind, up, addresses, gateway }: LineInterface, nowMs: number): string[] {
  if (!up || kind === 'loopback') return [];
  return addresses
    .filter(({ family }) => family === 'IPv4')
    .map(({ address, network, given, leaseEnds, served }) => {
      const lease =
        leaseEnds === null ? '' : ` for ${spanPhrase(Math.max(0, Date.parse(leaseEnds) - nowMs))}`;
      const router = gateway === null ? '' : `, router ${gateway}`;
      const how = given === 'unknown' ? '' : `, ${givenWords[given]}${lease}`;
      return `${name.padEnd(8)}${kind}, ${address} in ${network}${how}${router}${served ? '' : ', not served'}`;
    });
}

const givenWords = { 'dealt-out': 'dealt out', fixed: 'fixed', self: 'given by itself' } as const;

function wall(state: LineCheck['passive']['firewall']): string {
  return state === 'shut' ? ', shut by the firewall' : state === 'unknown' ? ', firewall not known' : '';
}

function speed(bytesPerSecond: number | null): string {
  return bytesPerSecond === null ? '' : `, ${sizePhrase(Math.round(bytesPerSecond))} a second`;
}
