/** Closes a switch over a union: the compiler rejects the call while a case is missing. */
export function exhaustive(value: never): never {
  throw new Error(`a case is missing for ${JSON.stringify(value)}`);
}
