import { decodedPath, type PathFault, pathInBag } from './path-in-bag.ts';

/** What a path of a manifest stands for among the files that are there. */
export interface Place {
  readonly path: string;
  readonly isThere: boolean;
  readonly tidied: boolean;
  /** The name on the disk is the same letters, put together otherwise (Unicode NFC and NFD): file systems do that. */
  readonly recomposed: boolean;
}

/** Finds the files that manifests speak of. */
export class Places {
  readonly #files: ReadonlySet<string>;
  readonly #composed: ReadonlyMap<string, string>;

  constructor(files: Iterable<string>) {
    this.#files = new Set(files);
    this.#composed = new Map([...this.#files].map((path) => [path.normalize('NFC'), path]));
  }

  /**
   * The file that a manifest's text means. The RFC has % encoded, much software writes it as it is: where only the text
   * as written is there, that is meant.
   */
  of(text: string): Place | PathFault {
    const decoded = pathInBag(decodedPath(text));
    const literal = pathInBag(text);
    if (typeof decoded === 'string') return decoded;
    if (typeof literal === 'string') return literal;
    for (const { path, tidied } of [decoded, literal]) {
      if (this.#files.has(path)) return { path, tidied, isThere: true, recomposed: false };
      const other = this.#composed.get(path.normalize('NFC'));
      if (other !== undefined) return { path: other, tidied, isThere: true, recomposed: true };
    }
    return { ...decoded, isThere: false, recomposed: false };
  }
}
