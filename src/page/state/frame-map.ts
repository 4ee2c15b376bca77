import type { Frame } from '../../contract/index.ts';

/** So many changes lie beside the large map before they are worked into a new one. */
const changesMax = 256;

/**
 * Frames by id as a value: what was read stays as it was when a frame is added. A change copies the few changes since the last
 * large map and not twenty thousand frames.
 */
export class FrameMap implements ReadonlyMap<string, Frame> {
  readonly #whole: ReadonlyMap<string, Frame>;
  readonly #changes: ReadonlyMap<string, Frame>;
  readonly size: number;

  private constructor(whole: ReadonlyMap<string, Frame>, changes: ReadonlyMap<string, Frame>, size: number) {
    this.#whole = whole;
    this.#changes = changes;
    this.size = size;
  }

  static of(frames: readonly Frame[]): FrameMap {
    const whole = new Map(frames.map((frame) => [frame.id, frame]));
    return new FrameMap(whole, new Map(), whole.size);
  }

  with(frame: Frame): FrameMap {
    const size = this.has(frame.id) ? this.size : this.size + 1;
    const changes = new Map(this.#changes).set(frame.id, frame);
    return changes.size <= changesMax
      ? new FrameMap(this.#whole, changes, size)
      : new FrameMap(new Map([...this.#whole, ...changes]), new Map(), size);
  }

  withAll(frames: readonly Frame[]): FrameMap {
    return FrameMap.of([...this.values(), ...frames]);
  }

  /** Only the frames that `keep` says yes to. */
  only(keep: (id: string) => boolean): FrameMap {
    return FrameMap.of([...this.values()].filter(({ id }) => keep(id)));
  }

  /** The frames that are not as they were in an earlier map; costs as much as has changed, but after some hundreds. */
  changedSince(before: FrameMap): Frame[] {
    const some = this.#whole === before.#whole ? this.#changes.values() : this.values();
    return [...some].filter((frame) => before.get(frame.id) !== frame);
  }

  get(id: string): Frame | undefined {
    return this.#changes.get(id) ?? this.#whole.get(id);
  }

  has(id: string): boolean {
    return this.#changes.has(id) || this.#whole.has(id);
  }

  *values(): MapIterator<Frame> {
    for (const frame of this.#whole.values()) yield this.#changes.get(frame.id) ?? frame;
    for (const frame of this.#changes.values()) if (!this.#whole.has(frame.id)) yield frame;
  }

  *keys(): MapIterator<string> {
    for (const { id } of this.values()) yield id;
  }

  *entries(): MapIterator<[string, Frame]> {
    for (const frame of this.values()) yield [frame.id, frame];
  }

  [Symbol.iterator](): MapIterator<[string, Frame]> {
    return this.entries();
  }

  forEach(tell: (frame: Frame, id: string, map: ReadonlyMap<string, Frame>) => void): void {
    for (const frame of this.values()) tell(frame, frame.id, this);
  }
}
