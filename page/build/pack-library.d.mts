export interface Core {
  checksum(image: Buffer): bigint;
  near(image: Buffer): { picked: number[]; pins: string[] };
}
export function coreOf(wasm: Buffer): Promise<Core>;
export function pack(image: Buffer, core: Core): { near: Buffer; rest: Buffer };
