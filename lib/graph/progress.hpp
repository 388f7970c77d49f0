#pragma once

// What a long computation tells its caller, and how the caller stops it.

#include <cstdint>

namespace spadework::graph {

/// Called from one thread at a time. Values are in the problem's own cost units.
class Progress {
public:
    virtual ~Progress() = default;

    /// The best plan and the best bound so far; called whenever either improves.
    virtual void improved(std::int64_t value, std::int64_t bound) = 0;

    /// True asks the computation to finish with the best it has. Cheap; called often.
    [[nodiscard]] virtual bool should_stop() const = 0;
};

/// For a part of a computation: passes the wish to stop on, and keeps to itself values that are not those of the whole.
class PartProgress : public Progress {
public:
    /// `whole` may be null: then nobody asks to stop.
    explicit PartProgress(const Progress* whole) : whole_(whole) {}

    void improved(std::int64_t /*value*/, std::int64_t /*bound*/) override {}
    [[nodiscard]] bool should_stop() const override { return whole_ != nullptr && whole_->should_stop(); }

private:
    const Progress* whole_;
};

/// For a part that asks whether to stop once a pass: it ends after so many passes as well.
class PassLimit : public PartProgress {
public:
    PassLimit(const Progress* whole, int passes) : PartProgress(whole), left_(passes) {}
    [[nodiscard]] bool should_stop() const override { return --left_ < 0 || PartProgress::should_stop(); }

private:
    mutable int left_;
};

}  // namespace spadework::graph
