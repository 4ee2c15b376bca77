import { rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { lineCheck, station as stationShape } from '../../src/contract/index.ts';
import { canMakeHosts, type Host, type Network } from '../netns.ts';
import { hasProgram } from './clients.ts';
import { firewall, LineBench } from './line-bench.ts';

/** A wall as distributions ship it, with what a scene adds. */
const wall = (rules: string, policy = 'accept'): string => `table inet filter {
  chain input {
    type filter hook input priority 0; policy ${policy};
    ct state established,related accept
    iif "lo" accept
    ${rules}
  }
}
`;

/**
 * Issue "Line": each scene puts something between camera and station, and holds what the line check finds - and that the cure it
 * names does cure: it is applied, and the camera tries again. Hosts are network namespaces, the camera is curl.
 */
describe.skipIf(!(await canMakeHosts()) || !hasProgram('curl'))('scenes of the line', () => {
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

  test('all is well: nothing is shut or weak, and what is told is what the system says', async () => {
    await bench.startStation(station);
    expect((await bench.finds('line-check.nothing-came')).weight).toBe('note');
    await bench.arrives(camera, home);
    await bench.settles('line-check.nothing-came');
    const run = await bench.line();
    expect(run.code, run.stdout).toBe(0);
    expect(run.stdout).toMatch(/^The line is open\./);
    const check = lineCheck.parse(JSON.parse((await bench.line(['--json'])).stdout));
    expect(check.findings.filter(({ weight }) => weight !== 'note')).toEqual([]);
    expect(check.cameras[0]).toMatchObject({ enter: home, entered: home, seenAt: '10.77.0.20' });
    // Second opinions: iproute2's own words.
    const [link] = JSON.parse((await station.run('ip', ['-j', 'address', 'show', 'eth0'])).stdout);
    const told = check.interfaces.find(({ name }) => name === 'eth0');
    expect(told?.hardware).toBe(link.address);
    expect(told?.addresses[0]).toMatchObject({
      address: link.addr_info[0].local,
      network: '10.77.0.0/24',
      given: 'fixed',
    });
    const listening = (await station.run('ss', ['-Hltn'])).stdout;
    for (const { port } of check.doors) expect(listening).toContain(`:${port} `);
  });

  test('the passive range is dropped: seen before and after a camera runs into it; --mend asks and opens it', async () => {
    await firewall(station, wall('tcp dport 50000-50099 drop'));
    await bench.startStation(station);
    expect(await bench.finds('line-check.passive-shut')).toMatchObject({
      sure: 'certain',
      weight: 'shut',
      camera: null,
    });
    expect((await bench.line()).code).toBe(1);
    await bench.fails(camera, home);
    await expect
      .poll(
        async () =>
          (await bench.check()).findings.find(({ code }) => code === 'line-check.passive-shut')?.camera,
        {
          timeout: 20_000,
        },
      )
      .toBe(bench.ready.cameras[0]?.name);
    const no = await bench.line(['--mend'], 'no\n');
    expect(no.stdout).toContain('Nothing was changed.');
    await bench.fails(camera, home);
    const yes = await bench.line(['--mend', '--json'], 'yes\n');
    expect(yes.stderr).toContain('tcp dport { 50000-50005 } accept');
    await bench.arrives(camera, home);
    await bench.settles('line-check.passive-shut');
    expect((await bench.line()).code).toBe(0);
  });

  test('port 21 is rejected: the lines that are shown open it for the cameras’ network and nobody else', async () => {
    await firewall(station, wall('tcp dport 21 reject with tcp reset'));
    await bench.startStation(station);
    await bench.fails(camera, home);
    const { cures, cause } = await bench.finds('line-check.firewall-shut');
    expect(cause.args.ports).toBe('21');
    await bench.runs(cures[0]?.commands ?? []);
    await bench.arrives(camera, home);
    await bench.settles('line-check.firewall-shut');
    // A host of another network is still kept out, by the rule that was there.
    await station.run('ip', ['address', 'add', '10.99.0.1/24', 'dev', 'eth0']);
    const stranger = await network.addHost('stranger', '10.99.0.20');
    await bench.fails(stranger, '10.99.0.1');
  });

  test('port 21 is dropped, as everything is that nobody opened: all that a camera needs is opened', async () => {
    await firewall(station, wall('', 'drop'));
    await bench.startStation(station);
    await bench.fails(camera, home);
    const { evidence } = await bench.finds('line-check.firewall-shut');
    expect(evidence[0]?.args.chain).toBe('inet filter input');
    await bench.runs((await bench.check()).firewall.commands);
    await bench.arrives(camera, home);
    await bench.settles('line-check.firewall-shut');
    await bench.settles('line-check.passive-shut');
  });

  test('a network for guests keeps its devices apart: told as possible, and mended where they may meet', async () => {
    const router = await network.addHost('router', '10.77.0.254');
    await station.run('ip', ['route', 'add', 'default', 'via', router.address]);
    await bench.startStation(station);
    await bench.arrives(camera, home);
    await bench.stopStation();
    await network.keepApart(router);
    await station.run('ip', ['neigh', 'flush', 'all']);
    await bench.startStation(station);
    await bench.fails(camera, home);
    const { sure, cures } = await bench.finds('line-check.kept-apart');
    expect(sure).toBe('possible');
    expect(cures[0]?.finding.code).toBe('line-cure.let-devices-meet');
    await network.keepApart(null);
    await bench.arrives(camera, home);
    await bench.settles('line-check.kept-apart');
  });

  test.skipIf(!hasProgram('python3'))(
    'another host asks for the station by its name, and for what it offers (RFC 6762, RFC 6763)',
    async () => {
      await bench.startStation(station);
      const { mdns } = await bench.check();
      expect(mdns).toMatch(/^[a-z0-9-]+\.local$/);
      const answersTo = async (name: string, kind: number): Promise<string> => {
        const run = await camera.run('python3', ['-c', ask, name, String(kind), camera.address]);
        expect(run.code, run.stderr).toBe(0);
        return run.stdout;
      };
      // A (1) holds the address; PTR (12) leads to a name with the port in it.
      expect(await answersTo(String(mdns), 1)).toContain('0a4d0001');
      for (const [service, port] of [
        ['_ftp._tcp.local', bench.ready.ftp],
        ['_sftp-ssh._tcp.local', bench.ready.sftp],
      ] as const) {
        expect(await answersTo(service, 12)).toContain(Buffer.from(` ${port}`).toString('hex'));
      }
    },
  );

  test('a wrong password, then a wrong user: each is told apart, and the right ones mend it', async () => {
    await bench.startStation(station);
    const [known] = bench.ready.cameras;
    await bench.fails(camera, home, { login: `${known?.user}:swordfish` });
    const wrong = await bench.finds('line-check.wrong-password');
    expect(wrong).toMatchObject({ camera: known?.name, sure: 'certain' });
    expect(JSON.stringify(wrong)).not.toMatch(/swordfish|\d+ letters/);
    expect(JSON.stringify(wrong)).not.toContain(known?.password);
    await bench.fails(camera, home, { login: `nobody-here:${known?.password}` });
    expect((await bench.finds('line-check.wrong-user')).cause.args.user).toBe('nobody-here');
    await bench.arrives(camera, home);
    await bench.settles('line-check.wrong-password');
    await bench.settles('line-check.wrong-user');
  });

  test('a router that translates addresses stands between: in the station’s own network it works', async () => {
    await station.run('ip', ['route', 'add', 'default', 'via', '10.77.0.254']);
    await bench.startStation(station);
    const outside = await bench.network();
    const router = await network.addHost('router', '10.77.0.254');
    await outside.plug(router, 'eth1', '192.168.50.1');
    await router.run('sysctl', ['-qw', 'net.ipv4.ip_forward=1']);
    await firewall(
      router,
      `table ip nat { chain pre { type nat hook prerouting priority -100; iifname "eth1" tcp dport 21 dnat to ${home}; }; }\n`,
    );
    const far = await outside.addHost('far', '192.168.50.20');
    // As a camera does: PASV, and the address that it names.
    const more = ['--disable-epsv', '--no-ftp-skip-pasv-ip'];
    await bench.fails(far, '192.168.50.1', { more });
    const { evidence, cures } = await bench.finds('line-check.address-translated');
    expect(evidence.map(({ code }) => code)).toContain('line-seen.behind-gateway');
    expect(cures[0]?.finding.args.network).toBe('10.77.0.0/24');
    await bench.arrives(camera, home, { more });
    await bench.settles('line-check.address-translated');
  });

  test('the station is in two networks and the camera in the other: the address of its own is named', async () => {
    const other = await bench.network();
    await other.plug(station, 'eth1', '10.78.0.1');
    const there = await other.addHost('there', '10.78.0.20');
    await bench.startStation(station);
    const [known] = bench.ready.cameras;
    const patch = await station.run('curl', [
      ...['-sS', '-X', 'PATCH', '-H', 'content-type: application/json', '-d', '{"allow":["10.78.0.20"]}'],
      `${bench.ready.web}/api/v1/cameras/${known?.name}`,
    ]);
    expect(patch.stdout).toContain('10.78.0.20');
    await bench.fails(there, home);
    const { cures, camera: whose } = await bench.finds('line-check.other-network');
    expect(whose).toBe(known?.name);
    expect(cures[0]?.finding.args.local).toBe('10.78.0.1');
    await bench.arrives(there, String(cures[0]?.finding.args.local));
    await bench.settles('line-check.other-network');
  });

  test('three packets in a hundred are lost: all arrives, and the line is told to be weak until none are lost', async () => {
    // Packets as a cable carries them; between these hosts the system would send 64 kB as one.
    await camera.run('ip', ['link', 'set', 'eth0', 'gso_max_segs', '1']);
    await network.lose(3);
    await bench.startStation(station);
    await bench.check();
    await bench.arrives(camera, home, { bytes: 6_000_000 });
    const { evidence } = await bench.finds('line-check.weak-line');
    expect(Number(evidence[0]?.args.percent)).toBeGreaterThan(1);
    await network.lose(0);
    for (let sent = 0; sent < 3; sent += 1) {
      await bench.arrives(camera, home, { bytes: 6_000_000 });
      await bench.check();
    }
    await bench.settles('line-check.weak-line');
  });

  test.skipIf(!hasProgram('faketime'))(
    'the camera’s clock stands in the wrong year: told from a root that is not imported, and both are mended',
    async () => {
      await bench.startStation(station);
      const root = join(bench.home, 'root.pem');
      const pem = await station.run('curl', ['-sS', `${bench.ready.web}/api/v1/station/certificate.pem`]);
      await writeFile(root, pem.stdout);
      const trusted = ['--ssl-reqd', '--cacert', root];
      await bench.fails(camera, home, { more: trusted, through: ['faketime', '2001-02-03 04:05:06'] });
      const { cures } = await bench.finds('line-check.tls-clock');
      expect(cures[0]?.finding.code).toBe('line-cure.set-clock');
      await bench.arrives(camera, home, { more: trusted });
      await bench.settles('line-check.tls-clock');
      await bench.fails(camera, home, { more: ['--ssl-reqd'] });
      const untrusted = await bench.finds('line-check.tls-untrusted');
      expect(untrusted.cures[0]?.finding.code).toBe('line-cure.import-root');
      await bench.arrives(camera, home, { more: trusted });
      await bench.settles('line-check.tls-untrusted');
    },
  );

  test('active mode behind the camera’s own wall: passive mode is named, and works', async () => {
    await firewall(camera, wall('', 'drop'));
    await bench.startStation(station);
    await bench.fails(camera, home, { more: ['--ftp-port', '-'] });
    const { cures } = await bench.finds('line-check.active-behind-wall');
    expect(cures[0]?.finding.code).toBe('line-cure.passive-mode');
    await bench.arrives(camera, home);
    await bench.settles('line-check.active-behind-wall');
  });

  test('a tunnel has taken the way to the cameras: without its route they come in', async () => {
    await bench.startStation(station);
    await bench.arrives(camera, home);
    for (const words of [
      ['tuntap', 'add', 'dev', 'tun0', 'mode', 'tun'],
      ['link', 'set', 'tun0', 'up'],
      ['route', 'add', '10.77.0.0/25', 'dev', 'tun0'],
    ]) {
      const run = await station.run('ip', words);
      expect(run.code, run.stderr).toBe(0);
    }
    await bench.fails(camera, home);
    const { evidence, sure } = await bench.finds('line-check.tunnel-took-route');
    expect(sure).toBe('certain');
    expect(evidence[0]?.args.interface).toBe('tun0');
    await station.run('ip', ['route', 'del', '10.77.0.0/25', 'dev', 'tun0']);
    await bench.arrives(camera, home);
    await bench.settles('line-check.tunnel-took-route');
  });

  test.skipIf(!hasProgram('python3'))(
    'another program has port 21: who has it and where the door is instead are told',
    async () => {
      const other = station.start('python3', ['-u', '-m', 'http.server', '21', '--bind', '0.0.0.0']);
      await expect
        .poll(async () => (await station.run('ss', ['-Hltn'])).stdout, { timeout: 20_000 })
        .toContain(':21 ');
      await bench.startStation(station);
      const { cause, evidence } = await bench.finds('line-check.other-port');
      expect(cause.args).toMatchObject({ door: 'FTP', port: 2121, wanted: 21 });
      expect(String(evidence[0]?.args.holder)).toContain(`python3 (${other.pid}`.slice(0, 7));
      await bench.fails(camera, home);
      await bench.arrives(camera, home, { port: Number(cause.args.port) });
    },
  );

  test('the disk has no room above its floor: told, and gone once there is', async () => {
    const settings = join(bench.home, 'setside.json');
    await writeFile(settings, '{"diskFloorMB":900000000}');
    await bench.startStation(station);
    await bench.finds('line-check.disk-full');
    await bench.fails(camera, home);
    await bench.stopStation();
    await rm(settings);
    await bench.startStation(station);
    await bench.arrives(camera, home);
    await bench.settles('line-check.disk-full');
  });

  test.skipIf(!hasProgram('dnsmasq') || !hasProgram('udhcpc'))(
    'the router deals out another address: told at the camera too, and each of three cures mends it',
    async () => {
      const dealt = await lease(bench, network);
      await dealt.deal('10.77.0.101');
      await bench.startStation(dealt.station);
      await bench.finds('line-check.address-dealt-out');
      await bench.arrives(camera, '10.77.0.101');
      await dealt.deal('10.77.0.140');
      await bench.fails(camera, '10.77.0.101');
      const { cause, cures } = await bench.finds('line-check.address-changed');
      expect(cause.args).toMatchObject({ address: '10.77.0.101', local: '10.77.0.140' });
      const trouble = async (): Promise<string | undefined> => {
        const answer = await dealt.station.run('curl', ['-sS', `${bench.ready.web}/api/v1/station`]);
        return stationShape.parse(JSON.parse(answer.stdout)).cameras[0]?.trouble?.code;
      };
      expect(await trouble()).toBe('line-check.address-changed');
      const cureOf = (code: string): (typeof cures)[number] | undefined =>
        cures.find(({ finding }) => finding.code === `line-cure.${code}`);
      // On this computer: the old address beside the new one.
      await bench.runs(cureOf('fix-address')?.commands ?? []);
      await bench.arrives(camera, '10.77.0.101');
      await bench.settles('line-check.address-changed');
      await dealt.station.run('ip', ['address', 'del', '10.77.0.101/24', 'dev', 'eth0']);
      // On the camera.
      await bench.arrives(camera, String(cureOf('enter-address')?.finding.args.local));
      await bench.settles('line-check.address-changed');
      expect(await trouble()).toBeUndefined();
      // At the router: for the hardware address that is named.
      const reserve = cureOf('reserve')?.finding.args;
      expect(reserve).toMatchObject({ address: '10.77.0.101', gateway: '10.77.0.254' });
      await dealt.deal(String(reserve?.address), String(reserve?.hardware));
      await bench.finds('line-check.address-changed');
      await bench.arrives(camera, '10.77.0.101');
      await bench.settles('line-check.address-changed');
    },
  );
});

/** A router that deals out addresses (dnsmasq), and a station's host that asks for one (udhcpc). */
async function lease(
  bench: LineBench,
  network: Network,
): Promise<{ station: Host; deal: (address: string, hardware?: string) => Promise<void> }> {
  const router = await network.addHost('router', '10.77.0.254');
  const station = await network.addHost('dealt');
  const script = join(bench.home, '..', `${station.name}.sh`);
  await writeFile(
    script,
    `#!/bin/sh
case "$1" in bound|renew)
  ip address flush dev "$interface"
  ip address add "$ip/24" dev "$interface" valid_lft "$lease" preferred_lft "$lease"
  ip route replace default via "$router" dev "$interface";;
esac
`,
    { mode: 0o755 },
  );
  let dealing: ReturnType<Host['start']> | null = null;
  return {
    station,
    deal: async (address, hardware) => {
      if (dealing !== null) {
        const ended = new Promise((resolve) => dealing?.once('exit', resolve));
        dealing.kill('SIGKILL');
        await ended;
      }
      dealing = router.start('dnsmasq', [
        ...[
          '--no-daemon',
          '--port=0',
          '--interface=eth0',
          '--bind-interfaces',
          '--no-ping',
          '--conf-file=/dev/null',
        ],
        ...['--dhcp-authoritative', '--leasefile-ro', '--dhcp-option=3,10.77.0.254'],
        hardware === undefined
          ? `--dhcp-range=${address},${address},255.255.255.0,10m`
          : '--dhcp-range=10.77.0.0,static,255.255.255.0,10m',
        ...(hardware === undefined ? [] : [`--dhcp-host=${hardware},${address}`]),
      ]);
      const asked = await station.run('udhcpc', [
        '-i',
        'eth0',
        '-f',
        '-q',
        '-n',
        '-t',
        '20',
        '-T',
        '1',
        '-s',
        script,
      ]);
      expect(asked.code, asked.stderr).toBe(0);
    },
  };
}

/** Asks by multicast and prints the first answer that is of that name, in hexadecimal (RFC 1035 section 4). */
const ask = `
import socket, struct, sys, time
name, kind, own = sys.argv[1], int(sys.argv[2]), sys.argv[3]
labels = b''.join(bytes([len(l)]) + l.encode() for l in name.split('.')) + b'\\0'
s = socket.socket(socket.AF_INET, socket.SOCK_DGRAM)
s.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
s.bind(('', 5353))
group = socket.inet_aton('224.0.0.251') + socket.inet_aton(own)
s.setsockopt(socket.IPPROTO_IP, socket.IP_ADD_MEMBERSHIP, group)
s.setsockopt(socket.IPPROTO_IP, socket.IP_MULTICAST_IF, socket.inet_aton(own))
s.settimeout(1)
end = time.time() + 50
while time.time() < end:
    s.sendto(struct.pack('>6H', 0, 0, 1, 0, 0, 0) + labels + struct.pack('>2H', kind, 1), ('224.0.0.251', 5353))
    try:
        while True:
            said, peer = s.recvfrom(9000)
            if said[2] & 0x80 and labels[:-1] in said and peer[0] != own:
                print(said.hex())
                sys.exit(0)
    except socket.timeout:
        pass
sys.exit('nobody answered')
`;
