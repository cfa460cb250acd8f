/* Where the program begins, before the C library does. A program that can lie at any address writes its own addresses into
 * its tables of texts first, a page at a time, and each of these seventy pages would be copied by a fault of its own: here
 * the kernel is asked for all of them in one call. Only where the program is linked to begin here (CMakeLists.txt); the C
 * library then begins as ever. */
#if defined(__linux__) && defined(__x86_64__) && defined(__GNUC__)
__asm__(".text\n"
        ".globl bw_start\n"
        ".type bw_start, @function\n"
        "bw_start:\n"
        "  mov %rdx, %r8\n" /* what _start is to find there */
        "  lea __init_array_start(%rip), %rdi\n"
        "  and $-4096, %rdi\n"
        "  lea _end(%rip), %rsi\n"
        "  sub %rdi, %rsi\n"
        "  mov $23, %edx\n" /* MADV_POPULATE_WRITE */
        "  mov $28, %eax\n" /* madvise: what it answers does not matter */
        "  syscall\n"
        "  mov %r8, %rdx\n"
        "  jmp _start\n"
        ".size bw_start, .-bw_start\n");
#endif
typedef int start_is_written_for_one_machine;
