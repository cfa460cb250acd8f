export function pack(image: Buffer, near?: { picked: number[]; pins: string[] } | null): { near: Buffer; rest: Buffer };
