export function pack(image: Buffer): Buffer;
