import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { station as stationShape } from '../../src/contract/index.ts';
import { canMakeHosts, type Host, type Network } from '../netns.ts';
import { hasProgram, runProgram } from './clients.ts';
import { LineBench } from './line-bench.ts';

const hasLegacy = await hasLegacyRules();

/** More of what `line-scenes.test.ts` does: real hosts, what is found, and that the cure it names does cure. */
describe.skipIf(!(await canMakeHosts()) || !hasProgram('curl'))('more scenes of the line', () => {
  let bench: LineBench;
  let network: Network;
  let station: Host;
  let camera: Host;
  const home = '10.77.0.1';

  beforeEach(async () => {
    bench = await LineBench.make();
    network = await bench.network();
    station = await network.addHost('station', home);
    camera = await network.addHost('camera', '10.77.0.20');
  });

  afterEach(() => bench.close());

  test('a camera that knows old TLS alone is told so; with a version of today it comes in', async () => {
    await bench.startStation(station);
    const tls = ['--ssl-reqd', '--insecure'];
    const old = ['--tlsv1.0', '--tls-max', '1.1', '--ciphers', 'DEFAULT:@SECLEVEL=0'];
    await bench.fails(camera, home, { more: [...tls, ...old] });
    const { cures } = await bench.finds('line-check.tls-version');
    expect(cures[0]?.finding.code).toBe('line-cure.plain-or-sftp');
    await bench.arrives(camera, home, { more: tls });
    await bench.settles('line-check.tls-version');
  });

  test('a camera that asks for a file as its folder never gets to send: told, and / lets it in', async () => {
    await bench.startStation(station);
    await bench.arrives(camera, home);
    // curl changes to each folder of the address in turn, and leaves at the first that is refused.
    await bench.fails(camera, home, { folder: 'F0000.BIN/' });
    const { cause, cures } = await bench.finds('line-check.folder-refused');
    expect(cause.args.name).toBe('F0000.BIN');
    expect(cures[0]?.finding.code).toBe('line-cure.enter-folder');
    await bench.arrives(camera, home);
    await bench.settles('line-check.folder-refused');
  });

  test('a camera stands still in the middle of a file: the line is told to be weak, until one arrives', async () => {
    await bench.startStation(station);
    const sending = await bench.begins(camera, home, 20_000_000, 200_000);
    try {
      // Its system still answers for it: power saving that stops the program, not the radio. The bound is a minute.
      sending.kill('SIGSTOP');
      const { cures, evidence } = await bench.finds('line-check.weak-line', 110_000);
      expect(cures.map(({ finding }) => finding.code)).toContain('line-cure.stay-awake');
      expect(evidence[0]?.args).toMatchObject({ times: 1, name: 'S0000.BIN' });
    } finally {
      sending.kill('SIGKILL');
    }
    await bench.arrives(camera, home);
    await bench.settles('line-check.weak-line');
  });

  test('a camera goes to sleep in the middle of a file, radio and all: told as asleep, until one arrives', async () => {
    await bench.startStation(station);
    const sending = await bench.begins(camera, home, 20_000_000, 200_000);
    try {
      await camera.run('ip', ['link', 'set', 'eth0', 'down']);
      await bench.finds('line-check.goes-to-sleep', 150_000);
    } finally {
      sending.kill('SIGKILL');
      await camera.run('ip', ['link', 'set', 'eth0', 'up']);
    }
    await bench.arrives(camera, home);
    await bench.settles('line-check.goes-to-sleep');
  });

  test('a bridge to guests of the station’s computer is named neither to cameras nor in a link', async () => {
    await station.run('ip', ['link', 'add', 'guests0', 'type', 'bridge']);
    await station.run('ip', ['address', 'add', '172.17.0.1/16', 'dev', 'guests0']);
    await station.run('ip', ['link', 'set', 'guests0', 'up']);
    await bench.startStation(station);
    const asked = await station.run('curl', ['-sS', `${bench.ready.web}/api/v1/station`]);
    const { addresses } = stationShape.parse(JSON.parse(asked.stdout));
    expect(addresses.map(({ address, beside }) => [address, beside]).sort()).toEqual([
      ['10.77.0.1', false],
      ['172.17.0.1', true],
    ]);
    const made = await bench.command(['link', 'add', 'pocket']);
    expect(made.stdout).toContain(`//${home}:`);
    expect(made.stdout).not.toContain('172.17.0.1');
  });

  test('two devices answer for one address: told while they do', async () => {
    const twin = await network.addHost('twin', '10.77.0.20');
    await bench.startStation(station);
    const knock = async (host: Host): Promise<void> => {
      // Whoever has forgotten the station asks for it, and says by that where it is itself (RFC 826).
      await host.run('ip', ['neigh', 'flush', 'all']);
      await station.run('ip', ['neigh', 'flush', 'all']);
      await host.run('curl', ['-s', '--connect-timeout', '2', '--max-time', '3', `ftp://${home}/`]);
      await bench.check();
    };
    await expect
      .poll(
        async () => {
          await knock(camera);
          await knock(twin);
          return (await bench.check()).findings.map(({ code }) => code);
        },
        { timeout: 90_000, interval: 300 },
      )
      .toContain('line-check.address-twice');
    const { cause, evidence } = await bench.finds('line-check.address-twice');
    expect(cause.args.address).toBe('10.77.0.20');
    // Second opinion: iproute2's own words of both.
    for (const host of [camera, twin]) {
      const [link] = JSON.parse((await host.run('ip', ['-j', 'link', 'show', 'eth0'])).stdout);
      expect(String(evidence[0]?.args.hardware)).toContain(String(link.address));
    }
  });

  test.skipIf(!hasLegacy)('a rule of the older kernel interface is read too', async () => {
    await station.run('iptables-legacy', [
      '-A',
      'INPUT',
      '-p',
      'tcp',
      '--dport',
      '50000:50005',
      '-j',
      'DROP',
    ]);
    await bench.startStation(station);
    const found = await bench.finds('line-check.passive-shut');
    expect(found).toMatchObject({ weight: 'shut', sure: 'certain' });
    await bench.fails(camera, home);
    // nft cannot change what it does not see: the line shown is one of the program that keeps the rule.
    expect(found.cures[0]?.commands.join()).toMatch(/^sudo iptables-legacy -I INPUT /);
    await bench.runs(found.cures[0]?.commands ?? []);
    await bench.arrives(camera, home);
    await bench.settles('line-check.passive-shut');
  });
});

/** Whether the kernel still has that interface; asked in a namespace of its own, which ends with the question. */
async function hasLegacyRules(): Promise<boolean> {
  if (!hasProgram('iptables-legacy') || !hasProgram('unshare')) return false;
  return (await runProgram('unshare', ['--net', 'iptables-legacy', '-L', '-n'])).code === 0;
}
