// Flat arrays for large networks: on huge pages where the system offers them, since access is scattered.
#pragma once

#include <sys/mman.h>

#include <cstddef>
#include <new>
#include <type_traits>
#include <utility>
#include <vector>

namespace lathbook::timeline {

/// Allocates as usual, but large arrays on 2 MB boundaries with the advice to use huge pages (a failure to
/// do so changes nothing but speed). resize() leaves new plain numbers unset: write them before reading.
template <typename T>
struct FlatAllocator {
  using value_type = T;

  static constexpr std::size_t kPage = std::size_t{1} << 21;

  FlatAllocator() = default;
  template <typename U>
  FlatAllocator(const FlatAllocator<U>&) {}

  T* allocate(std::size_t count) {
    const std::size_t bytes = count * sizeof(T);
    if (bytes < kPage) return static_cast<T*>(::operator new(bytes));
    void* memory = ::operator new (bytes, std::align_val_t{kPage});
    static_cast<void>(madvise(memory, bytes, MADV_HUGEPAGE));
    return static_cast<T*>(memory);
  }
  void deallocate(T* memory, std::size_t count) {
    if (count * sizeof(T) < kPage)
      ::operator delete(memory);
    else
      ::operator delete (memory, std::align_val_t{kPage});
  }
  template <typename U, typename... Args>
  void construct(U* at, Args&&... args) {
    if constexpr (sizeof...(Args) == 0 && std::is_trivially_default_constructible_v<U>)
      static_cast<void>(at);
    else
      ::new (static_cast<void*>(at)) U(std::forward<Args>(args)...);
  }
  template <typename U>
  bool operator==(const FlatAllocator<U>&) const {
    return true;
  }
};

/// Tells the processor that an address will be wanted soon. Scattered reads a known distance ahead are
/// what large networks spend their time on.
inline void fetch_ahead(const void* address) {
  __builtin_prefetch(address);
}

template <typename T>
using Flat = std::vector<T, FlatAllocator<T>>;

}  // namespace lathbook::timeline
