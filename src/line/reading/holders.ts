/** Who listens at a TCP port: `nginx (812)`; by port, from what a command of the system prints. */
export type Holders = ReadonlyMap<number, string>;

/** `ss -Hltnp` of Linux: `LISTEN 0 128 0.0.0.0:21 0.0.0.0:* users:(("vsftpd",pid=12,fd=3))`; the name is shown to its owner and root only. */
export function holdersOfSs(text: string): Holders {
  return gathered(text, (line) => {
    const port = /^LISTEN\s+\d+\s+\d+\s+\S*:(\d+)\s/.exec(line)?.[1];
    const held = /users:\(\("([^"]*)",pid=(\d+)/.exec(line);
    return [port, held === null ? '' : `${held[1]} (${held[2]})`];
  });
}

/** `lsof -nP -iTCP -sTCP:LISTEN` of macOS: `nginx 812 root 6u IPv4 0x… 0t0 TCP *:8080 (LISTEN)`. */
export function holdersOfLsof(text: string): Holders {
  return gathered(text, (line) => {
    const found = /^(\S+)\s+(\d+)\s.*:(\d+) \(LISTEN\)$/.exec(line);
    return [found?.[3], `${found?.[1]} (${found?.[2]})`];
  });
}

/** `netstat -ano -p TCP` of Windows: `TCP 0.0.0.0:21 0.0.0.0:0 LISTENING 1234`. */
export function holdersOfNetstat(text: string): Holders {
  return gathered(text, (line) => {
    const found = /^\s*TCP\s+\S*:(\d+)\s+\S+\s+LISTENING\s+(\d+)/.exec(line);
    return [found?.[1], `process ${found?.[2]}`];
  });
}

/** The first that has a port; several may, at addresses of their own. An empty name is somebody the system does not tell. */
function gathered(text: string, read: (line: string) => [string | undefined, string]): Holders {
  const holders = new Map<number, string>();
  for (const line of text.split(/\r?\n/)) {
    const [port, holder] = read(line);
    if (port !== undefined && (holders.get(Number(port)) ?? '') === '') holders.set(Number(port), holder);
  }
  return holders;
}
