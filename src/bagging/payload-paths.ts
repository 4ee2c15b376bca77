/**
 * Paths of a payload as they are written in the bag: what a manifest would have to encode (CR, LF, %) is made `_`, since
 * software differs in reading that back; a number is put before the ending where two would be the same then.
 */
export function payloadPaths(paths: readonly string[]): readonly string[] {
  const taken = new Set(paths.filter((path) => !mustEncode.test(path)));
  return paths.map((path) => {
    if (!mustEncode.test(path)) return path;
    const plain = path.replace(/[%\r\n]/g, '_');
    let free = plain;
    for (let number = 2; taken.has(free); number++) free = numbered(plain, number);
    taken.add(free);
    return free;
  });
}

const mustEncode = /[%\r\n]/;

function numbered(path: string, number: number): string {
  const dot = path.lastIndexOf('.');
  const at = dot > path.lastIndexOf('/') ? dot : path.length;
  return `${path.slice(0, at)} (${number})${path.slice(at)}`;
}
