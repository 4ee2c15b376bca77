import { useEffect, useMemo, useRef, useState } from 'react';
import type { ExrPicture, RgbHalf, Size } from '../../../image/index.ts';
import type { Look } from '../../../look/index.ts';
import { fetchSceneTile } from '../../link/index.ts';
import type { LookWork } from '../off-thread/look-work.ts';
import { type CloseView, closeView, joined, type TileName } from './closely.ts';

/** A tile takes a megabyte and a half. */
const tilesMax = 64;

export interface Closely {
  readonly view: CloseView;
  /** Null until every tile that is seen has come. */
  readonly part: RgbHalf | null;
  /** Tiles of what is looked at now: those that are here, of how many; `failed`: one did not come. */
  readonly here: number;
  readonly of: number;
  readonly failed: boolean;
}

/** The picture pixel for pixel about a place, from the tiles of the original; null while it is seen whole. */
export function useClosely(
  frame: string,
  version: number,
  geometry: Look['geometry'],
  full: Size,
  room: Size | null,
  centre: { readonly x: number; readonly y: number } | null,
  work: LookWork | null,
): Closely | null {
  const tiles = useRef(new Map<string, ExrPicture>());
  const [come, setCome] = useState(0);
  const [failed, setFailed] = useState(false);
  const view = useMemo(
    () => (centre === null || room === null ? null : closeView(geometry, full, room, centre)),
    [geometry, full, room, centre],
  );
  // biome-ignore lint/correctness/useExhaustiveDependencies: tiles of another frame or version are none
  useEffect(() => tiles.current.clear(), [frame, version]);
  const seen = view === null ? '' : view.tiles.map(nameOf).join(' ');
  // biome-ignore lint/correctness/useExhaustiveDependencies: the names are what is wanted
  useEffect(() => {
    if (work === null || view === null) return;
    const gone = new AbortController();
    setFailed(false);
    for (const tile of view.tiles.filter((each) => !tiles.current.has(nameOf(each)))) {
      fetchSceneTile(frame, tile.column, tile.row, version, gone.signal)
        .then((bytes) => work.readScene(bytes))
        .then(
          (picture) => {
            if (picture === null || gone.signal.aborted) return;
            keep(tiles.current, nameOf(tile), picture);
            setCome((count) => count + 1);
          },
          () => gone.signal.aborted || setFailed(true),
        );
    }
    return () => gone.abort();
  }, [frame, version, work, seen]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the same tiles make the same part
  const part = useMemo(() => {
    if (view === null) return null;
    const here = view.tiles.flatMap((tile) => tiles.current.get(nameOf(tile)) ?? []);
    return here.length === view.tiles.length ? joined(view.part, here) : null;
  }, [frame, version, seen, come]);
  // What was seen last stays until all of the next is here.
  const last = useRef<Pick<Closely, 'view' | 'part'> | null>(null);
  if (view === null) last.current = null;
  else if (part !== null) last.current = { view, part };
  if (view === null) return null;
  const here = view.tiles.filter((tile) => tiles.current.has(nameOf(tile))).length;
  return { ...(last.current ?? { view, part: null }), here, of: view.tiles.length, failed };
}

function nameOf({ column, row }: TileName): string {
  return `${column},${row}`;
}

function keep(tiles: Map<string, ExrPicture>, name: string, picture: ExrPicture): void {
  tiles.set(name, picture);
  for (const oldest of tiles.keys()) {
    if (tiles.size <= tilesMax) return;
    tiles.delete(oldest);
  }
}
