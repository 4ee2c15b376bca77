import type { Look } from '../../contract/index.ts';

/** The versions of one name that can be chosen, the newest first. */
export interface LookGroup {
  readonly name: string;
  readonly versions: readonly Look[];
}

/** Those that are not laid aside, and the one that is chosen whatever became of it; as listed: by name, the newest first. */
export function lookGroups(looks: readonly Look[], chosen: string | null): readonly LookGroup[] {
  const groups = new Map<string, Look[]>();
  for (const look of looks) {
    if (look.laidAside && look.id !== chosen) continue;
    const key = look.name.toLowerCase();
    groups.set(key, [...(groups.get(key) ?? []), look]);
  }
  return [...groups.values()].map((versions) => ({ name: versions[0]?.name ?? '', versions }));
}
