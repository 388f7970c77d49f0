#pragma once

// The queue of a shortest path search: ids with keys, smallest key first, ties by id, keys may fall.

#include <cstddef>
#include <cstdint>
#include <limits>
#include <vector>

namespace spadework::graph {

/// A four-ary heap over ids 0 .. size-1.
template <class Key>
class LabelHeap {
public:
    explicit LabelHeap(std::size_t size = 0) : place_(size, kAbsent) {}

    /// Makes room for ids below `size`; the heap must be empty.
    void fit(std::size_t size) {
        if (place_.size() < size) place_.resize(size, kAbsent);
    }
    [[nodiscard]] bool empty() const { return items_.empty(); }
    [[nodiscard]] Key top_key() const { return items_.front().key; }
    [[nodiscard]] bool holds(std::int32_t id) const { return place_[id] != kAbsent; }

    /// Adds the id, or lowers its key.
    void push_or_lower(std::int32_t id, Key key) {
        std::uint32_t at = place_[id];
        if (at == kAbsent) {
            at = static_cast<std::uint32_t>(items_.size());
            items_.push_back({key, id});
        }
        rise(at, {key, id});
    }

    std::int32_t pop() {
        const std::int32_t id = items_.front().id;
        place_[id] = kAbsent;
        const Item last = items_.back();
        items_.pop_back();
        if (!items_.empty()) sink(last);
        return id;
    }

    void clear() {
        for (const Item& item : items_)
            place_[item.id] = kAbsent;
        items_.clear();
    }

private:
    struct Item {
        Key key;
        std::int32_t id;
        bool operator<(const Item& other) const { return key < other.key || (key == other.key && id < other.id); }
    };
    static constexpr std::uint32_t kAbsent = std::numeric_limits<std::uint32_t>::max();

    void put(std::uint32_t at, Item item) {
        items_[at] = item;
        place_[item.id] = at;
    }

    void rise(std::uint32_t at, Item item) {
        while (at > 0) {
            const std::uint32_t up = (at - 1) / 4;
            if (!(item < items_[up])) break;
            put(at, items_[up]);
            at = up;
        }
        put(at, item);
    }

    void sink(Item item) {
        const auto size = static_cast<std::uint32_t>(items_.size());
        std::uint32_t at = 0;
        for (std::uint32_t child = 1; child < size; child = 4 * at + 1) {
            std::uint32_t least = child;
            for (std::uint32_t c = child + 1; c < child + 4 && c < size; ++c) {
                if (items_[c] < items_[least]) least = c;
            }
            if (!(items_[least] < item)) break;
            put(at, items_[least]);
            at = least;
        }
        put(at, item);
    }

    std::vector<Item> items_;
    std::vector<std::uint32_t> place_;
};

}  // namespace spadework::graph
