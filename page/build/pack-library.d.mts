export type Checksum = (image: Buffer) => bigint;
export function checksums(wasm: Buffer): Promise<Checksum>;
export function pack(image: Buffer, checksum: Checksum, near?: { picked: number[]; pins: string[] } | null): { near: Buffer; rest: Buffer };
