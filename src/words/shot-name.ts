interface Named {
  readonly id: string;
  readonly name: string;
}

/** A shot's name as it tells it from the others of its job: where two are called the same, with its id. */
export function shotName({ id, name }: Named, shots: readonly Named[]): string {
  return shots.some((other) => other.id !== id && other.name === name) ? `${name} (${id})` : name;
}
